import { cohenKappa, mayShow, type RaterKappa, tallyRatings } from '../../grading/index.ts';
import type { Held } from './test-figures.ts';

/** What one trainer saw of one person at one machine on one day. */
export type WatchedSheet = {
  readonly trainer: string;
  readonly person: string;
  /** unit, bench and kind of work in one word */
  readonly task: string;
  /** calendar day */
  readonly day: string;
  readonly criteria: readonly {
    readonly id: string;
    readonly result: 'yes' | 'no' | 'not-seen';
  }[];
};

export type TrainerAgreement = Held<RaterKappa> & {
  /** practicals two trainers watched together */
  readonly practicals: number;
};

const RESULTS = ['yes', 'no'] as const;
type Result = (typeof RESULTS)[number];

/** Criteria both saw, as pairs; what one of them did not see tells nothing of how they judge. */
function pairsOf(a: WatchedSheet, b: WatchedSheet): [Result, Result][] {
  const other = new Map(b.criteria.map(({ id, result }) => [id, result]));
  return a.criteria.flatMap(({ id, result }): [Result, Result][] => {
    const second = other.get(id);
    return result === 'not-seen' || second === undefined || second === 'not-seen'
      ? []
      : [[result, second]];
  });
}

/**
 * Kappa between two trainers who filled in a sheet each for one practical: the same person, task and
 * day. Trainers are put in the order of their ids, so that the table does not depend on who signed first.
 */
export function trainerAgreement(sheets: readonly WatchedSheet[]): TrainerAgreement {
  const together = Map.groupBy(sheets, ({ person, task, day }) => `${person} ${task} ${day}`);
  const joint = [...together.values()].flatMap((group) => {
    const byTrainer = new Map(group.map((sheet) => [sheet.trainer, sheet]));
    const [a, b] = [...byTrainer.values()].toSorted((x, y) => (x.trainer < y.trainer ? -1 : 1));
    return a === undefined || b === undefined ? [] : [pairsOf(a, b)];
  });
  const pairs = joint.flat();
  return {
    practicals: joint.length,
    value: pairs.length === 0 ? null : cohenKappa(tallyRatings(pairs, RESULTS)),
    showing: mayShow('kappa', pairs.length),
  };
}
