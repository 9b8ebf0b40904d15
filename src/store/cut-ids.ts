/** Ids named in one query. Databases take a limited number of values at once. */
const IDS_AT_A_TIME = 500;

/** Ids in parts that one query can name, each id once. */
export function cutIds(ids: readonly string[]): string[][] {
  const parts: string[][] = [];
  const all = [...new Set(ids)];
  for (let at = 0; at < all.length; at += IDS_AT_A_TIME)
    parts.push(all.slice(at, at + IDS_AT_A_TIME));
  return parts;
}
