import { requireWhole } from './arguments.ts';

/**
 * The least sample from which each figure may be put on a screen, and why. Computed from the
 * figure's own error where it has one; "common practice, no source" where it has not. A figure is
 * computed whatever the sample; the screen asks here first and stays quiet.
 */
type Least = { readonly least: number; readonly of: string; readonly because: string };

const LEAST = {
  // 1.96 / sqrt(n + 3.84) is the widest 95 % Wilson interval: .49 at 12, .51 at 11
  proportion: {
    least: 12,
    of: 'attempts',
    because: 'with fewer, a 95 % interval can span more than half the scale',
  },
  // 1.96 / sqrt(n - 1) is .36 at 30
  discrimination: {
    least: 30,
    of: 'attempts',
    because: 'with fewer, an item that tells nothing can still show a correlation of .36 by luck',
  },
  // Feldt's interval for alpha .7 of ten items: .51 to .84 at 30, .46 to .86 at 20
  reliability: {
    least: 30,
    of: 'attempts',
    because: 'with fewer, a reliability of .70 cannot be told from .50',
  },
  'error-of-measurement': {
    least: 30,
    of: 'attempts',
    because: 'it rests on the reliability, which needs as many',
  },
  // common practice, no source; it rests on KR-21
  consistency: {
    least: 30,
    of: 'attempts',
    because:
      'it is a model fitted to the spread of the totals, and few totals do not show a spread',
  },
  // at 19 ratings the maker of the published SAS example calls the error unrealistic
  kappa: {
    least: 30,
    of: 'ratings by both',
    because: 'with fewer, its standard error is not to be trusted',
  },
  // at H .8 and F .2: .45 at 20, .64 at 10
  sensitivity: {
    least: 20,
    of: 'faults, and as many things in order',
    because: "with fewer, the error of d' is nearly half a unit or more",
  },
  'cut-score': {
    least: 2,
    of: 'judges',
    because: 'one opinion is not a method',
  },
  // Student's t at 95 %: 12.7 for two judges, 2.8 for five
  'cut-score-error': {
    least: 5,
    of: 'judges',
    because: 'with two, the true interval would be six times what the figure suggests',
  },
  // 1.96 * .5 / sqrt(n) is .196 at 25 for results that are right half the time
  calibration: {
    least: 25,
    of: 'findings with a confidence',
    because: 'with fewer, luck alone can move the over-confidence by a fifth',
  },
  'calibration-bin': {
    least: 12,
    of: 'findings in the group',
    because: 'with fewer, a 95 % interval can span more than half the scale',
  },
  exposure: {
    least: 2,
    of: 'sittings',
    because: 'an overlap needs a pair',
  },
  // common practice, no source: two parameters an item need hundreds
  'two-parameter': {
    least: 500,
    of: 'attempts',
    because: 'with fewer, the slopes wander too far to rank items by them',
  },
} as const satisfies Record<string, Least>;

export type FigureName = keyof typeof LEAST;

export const FIGURE_NAMES = Object.keys(LEAST) as readonly FigureName[];

export type Showing = {
  readonly show: boolean;
  readonly least: number;
  readonly have: number;
  /** one sentence for the reader; null when the figure may be shown */
  readonly reason: string | null;
};

/**
 * Says whether a figure may be shown for a sample of this size (0 or more): attempts, ratings,
 * judges or findings as the figure demands; for d' the smaller of signals and noise.
 */
export function mayShow(figure: FigureName, have: number): Showing {
  requireWhole('the size of the sample', have, 0);
  const { least, of, because } = LEAST[figure];
  const show = have >= least;
  const reason = show ? null : `Needs at least ${least} ${of}, and there are ${have}: ${because}.`;
  return { show, least, have, reason };
}
