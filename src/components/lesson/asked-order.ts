const PLACE = /<Question(?:s\b|\s[^>]*?\bid="([^"]+)")/g;

/** The places for questions in a lesson's text: an id, or null for all that are left. */
const placesIn = (body: string): (string | null)[] =>
  [...body.matchAll(PLACE)].map(([, id]) => id ?? null);

/** Ids of the questions the writer has placed in the text. */
export const placedIn = (body: string): ReadonlySet<string> =>
  new Set(placesIn(body).filter((id) => id !== null));

/**
 * The questions of a lesson in the order a reader meets them: those placed by name where they stand, the
 * rest of the bank where the writer has put it.
 * @param bank ids of all questions, in the order of their file
 */
export function askedOrder(body: string, bank: readonly string[]): readonly string[] {
  const placed = placedIn(body);
  const left = bank.filter((id) => !placed.has(id));
  const asked = placesIn(body).flatMap((id) => (id === null ? left : [id]));
  return [...new Set(asked)];
}
