/**
 * The places 0 to `count - 1` in an order that is never the right one, the same every time the page
 * is built.
 * @param seed any text, such as the question's id
 */
export function shuffledOrder(count: number, seed: string): number[] {
  // FNV-1a over the seed, then a linear congruential generator (constants of Numerical Recipes)
  let state = 2166136261;
  for (const letter of seed)
    state = Math.imul(state ^ (letter.codePointAt(0) ?? 0), 16777619) >>> 0;
  const places = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i -= 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const j = Math.floor((state / 2 ** 32) * (i + 1));
    [places[i], places[j]] = [places[j] as number, places[i] as number];
  }
  const isSorted = places.every((place, i) => place === i);
  return isSorted ? [...places.slice(1), ...places.slice(0, 1)] : places;
}
