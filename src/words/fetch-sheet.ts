import type { Language } from './languages.ts';

/** A sheet of words as the site serves it, or null when there is none or it does not come. */
export async function fetchSheet(
  language: Language,
  name: string,
): Promise<Readonly<Record<string, string>> | null> {
  try {
    const reply = await fetch(`/words/${language}/${name}.json`);
    const sheet: unknown = reply.ok ? await reply.json() : null;
    return typeof sheet === 'object' ? (sheet as Readonly<Record<string, string>> | null) : null;
  } catch {
    return null;
  }
}
