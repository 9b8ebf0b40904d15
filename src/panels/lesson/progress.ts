/**
 * Which questions of a lesson have been answered right, kept on this device. Storage may be refused,
 * full, or hold something else: then the lesson still works and nothing is kept.
 */
const keyOf = (lesson: string): string => `lesson:${lesson}`;

/** Ids of the questions answered right. */
export function readRight(lesson: string): ReadonlySet<string> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(lesson)) ?? '{}');
    const right = typeof kept === 'object' && kept !== null && 'right' in kept ? kept.right : [];
    return new Set(Array.isArray(right) ? right.filter((id) => typeof id === 'string') : []);
  } catch {
    return new Set();
  }
}

export function rememberRight(lesson: string, question: string): void {
  const right = new Set([...readRight(lesson), question]);
  try {
    localStorage.setItem(keyOf(lesson), JSON.stringify({ version: 1, right: [...right] }));
  } catch {}
}
