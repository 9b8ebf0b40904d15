/** A browser's storage in memory, which may refuse. */
export class FakeStorage {
  #kept = new Map<string, string>();
  refuses = false;
  getItem(key: string): string | null {
    if (this.refuses) throw new Error('refused');
    return this.#kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    if (this.refuses) throw new Error('full');
    this.#kept.set(key, value);
    (this as unknown as Record<string, string>)[key] = value;
  }
  removeItem(key: string): void {
    this.#kept.delete(key);
    delete (this as unknown as Record<string, string>)[key];
  }
}
