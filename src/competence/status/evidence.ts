/** What it takes until a person is signed off in a unit, besides a trainer's word at the machine. */
export type Evidence = {
  /** oldest version of the unit that still counts */
  readonly since: number;
  /** practicals signed off, 1 to 10 */
  readonly practicals: number;
  /** separate days they were watched on, at most as many as practicals */
  readonly days: number;
  /** confirmed practice at the same bench in the same work; null where none is asked for */
  readonly practice: { readonly sessions: number; readonly hours: number } | null;
  /** ids of lessons and tests that open the door to the practical: told, and never counted */
  readonly screen: readonly string[];
};

/** Where a unit says nothing of its own. */
export const ONE_PRACTICAL: Evidence = {
  since: 1,
  practicals: 1,
  days: 1,
  practice: null,
  screen: [],
};
