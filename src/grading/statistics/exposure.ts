/** One sitting: whose it was, which form (seed and blueprint, say), which items it held. */
export type Sitting = {
  readonly person: string;
  readonly form: string;
  readonly items: readonly string[];
};

export type Seen = {
  readonly id: string;
  /** sittings that held it */
  readonly sittings: number;
  /** those as a share of all sittings, 0 to 1 */
  readonly rate: number;
  /** different people who have seen it */
  readonly people: number;
};

export type Exposure = {
  readonly sittings: number;
  /** most seen first */
  readonly forms: readonly Seen[];
  /** most seen first */
  readonly items: readonly Seen[];
  /** sittings of a form by a person who had met that form before: should be 0 */
  readonly repeats: number;
  /** chance that two sittings had one form; null under two sittings */
  readonly formOverlap: number | null;
  /** mean share of items two sittings have in common, 0 to 1; null under two sittings or no items */
  readonly itemOverlap: number | null;
};

function countSeen(pairs: readonly (readonly [id: string, person: string])[], all: number): Seen[] {
  const seen = new Map<string, { sittings: number; people: Set<string> }>();
  for (const [id, person] of pairs) {
    const entry = seen.get(id) ?? { sittings: 0, people: new Set() };
    entry.sittings += 1;
    entry.people.add(person);
    seen.set(id, entry);
  }
  return [...seen]
    .map(([id, { sittings, people }]) => ({
      id,
      sittings,
      rate: sittings / all,
      people: people.size,
    }))
    .toSorted((a, b) => b.sittings - a.sittings || (a.id < b.id ? -1 : 1));
}

/** Pairs of sittings that share each thing, added up. */
const sharedPairs = (seen: readonly Seen[]): number =>
  seen.reduce((sum, { sittings }) => sum + (sittings * (sittings - 1)) / 2, 0);

/**
 * How often forms and items have been seen, and how much two sittings have in common. An item named
 * twice in one sitting counts once. Overlaps are counted over all pairs of sittings: for forms
 * sum n(n-1) / N(N-1), Simpson's index (1949); for items the shared ones over the mean length
 * (the overlap rate of computer-based testing; definition, no table).
 */
export function measureExposure(sittings: readonly Sitting[]): Exposure {
  const all = sittings.length;
  const forms = countSeen(
    sittings.map(({ form, person }) => [form, person] as const),
    all,
  );
  const held = sittings.map(({ items, person }) =>
    [...new Set(items)].map((item) => [item, person] as const),
  );
  const items = countSeen(held.flat(), all);
  const pairs = (all * (all - 1)) / 2;
  const meanLength = held.flat().length / all;
  return {
    sittings: all,
    forms,
    items,
    repeats: forms.reduce((sum, form) => sum + form.sittings - form.people, 0),
    formOverlap: pairs === 0 ? null : sharedPairs(forms) / pairs,
    itemOverlap: pairs === 0 || !(meanLength > 0) ? null : sharedPairs(items) / pairs / meanLength,
  };
}
