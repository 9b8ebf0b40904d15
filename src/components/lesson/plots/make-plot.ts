import type { Bench } from '../../../bench/index.ts';
import { findLimit, type LimitSet, setOfLimit } from '../../../limits/index.ts';
import type { Speaker } from '../../../words/say.ts';
import { plotChange } from './change-plot.ts';
import { type AskedLimit, limitEnds, lineOf } from './limit-lines.ts';
import {
  isReadyPlot,
  LIMITS_OF,
  makeReadyPlot,
  READY_PLOTS,
  type ReadyPlotId,
  type Shown,
} from './ready-plots.ts';

/** A plot as a writer asks for it. */
export type AskedPlot = {
  readonly title: string;
  readonly alt: string;
  /** a plot that is ready */
  readonly show?: string | undefined;
  /** a field of the bench file that is changed, and its two ends */
  readonly change?: string | undefined;
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** what is drawn against it */
  readonly of?: readonly string[] | string | undefined;
  /** ids of published limits drawn across */
  readonly limits?: readonly string[] | undefined;
};

/** The plot, and the names its numbered curves have in the key under it. */
export type MadePlot = { readonly shown: Shown; readonly key: readonly string[] };

/** @throws Error in one sentence */
function findLimits(
  ids: readonly string[],
  sets: ReadonlyMap<string, LimitSet>,
): readonly AskedLimit[] {
  return ids.map((id) => {
    const set = sets.get(setOfLimit(id));
    const limit = findLimit(sets, id);
    if (set === undefined || limit === undefined) throw new Error(`There is no limit named ${id}.`);
    return { limit, set };
  });
}

function makeReady(
  id: ReadyPlotId,
  bench: Bench,
  { title, alt }: AskedPlot,
  limits: readonly AskedLimit[],
  say: Speaker,
): Shown {
  const may = LIMITS_OF[id];
  const stray = limits.find(({ limit }) => !may?.measures.includes(limit.measure));
  if (stray !== undefined)
    throw new Error(
      `The plot ${id} does not show ${stray.limit.measure}, which the limit ${stray.limit.id} is about.`,
    );
  const lines = limits.flatMap((asked) =>
    limitEnds(asked, [bench]).map((end) => lineOf(end, may?.axis ?? 'y', say)),
  );
  return makeReadyPlot(id, bench, { title, description: alt }, lines, say);
}

/**
 * Makes the plot a writer asks for.
 * @throws Error in one sentence that says what is wrong with what was asked
 */
export function makePlot(
  bench: Bench,
  asked: AskedPlot,
  sets: ReadonlyMap<string, LimitSet>,
  say: Speaker,
): MadePlot {
  const { title, alt, show, change, from, to, of = [] } = asked;
  const limits = findLimits(asked.limits ?? [], sets);
  if ((show === undefined) === (change === undefined))
    throw new Error('Either show, a plot that is ready, or change, a field of the bench.');
  if (show !== undefined) {
    if (!isReadyPlot(show))
      throw new Error(`There is no plot named ${show}; there are ${READY_PLOTS.join(', ')}.`);
    return { shown: makeReady(show, bench, asked, limits, say), key: [] };
  }
  if (typeof from !== 'number' || typeof to !== 'number')
    throw new Error('from and to must be two numbers, the smaller one first.');
  const { request, key } = plotChange(
    bench,
    { field: change as string, from, to, of: typeof of === 'string' ? [of] : of, limits },
    { title, description: alt },
    say,
  );
  return { shown: { kind: 'plot', request, by: 'x' }, key };
}
