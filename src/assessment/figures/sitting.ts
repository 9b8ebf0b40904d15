import type { Judgement } from '../../grading/index.ts';

/** One test handed in, as far as figures about the test are concerned. */
export type TestSitting = {
  readonly person: string;
  /** what the form was: two with one name were the same form */
  readonly form: string;
  /** 0 to 100 */
  readonly score: number;
  /** score of each part of the test, 0 to 100, and its weight against the others, by its id */
  readonly parts: Readonly<Record<string, { readonly score: number; readonly weight: number }>>;
  /** faults that were on the bench, by id: found or not */
  readonly faults: Readonly<Record<string, boolean>>;
  /**
   * What was thought before anybody sat it: share who would find a fault, 0 to 1, and mean score of a
   * part, 0 to 100, by id; empty where nobody guessed
   */
  readonly thought: {
    readonly faults: Readonly<Record<string, number>>;
    readonly parts: Readonly<Record<string, number>>;
  };
  /** what was named, with how sure the person was; empty where nobody was asked */
  readonly judgements: readonly Judgement[];
};

/**
 * First sittings only: whoever has seen a test once is another person the second time, and one who
 * sits it ten times would outweigh nine others.
 * @param sittings in the order they were handed in
 */
export function firstSittings(sittings: readonly TestSitting[]): readonly TestSitting[] {
  const seen = new Set<string>();
  return sittings.filter(({ person }) => {
    const isFirst = !seen.has(person);
    seen.add(person);
    return isFirst;
  });
}
