import { type Bench, measureBench } from '../../../bench/index.ts';
import type { PlotLine, PlotText } from '../../../drawing/index.ts';
import type { LengthUnit } from '../../../geometry/index.ts';
import type { Limit, LimitSet } from '../../../limits/index.ts';
import type { Speaker } from '../../../words/say.ts';
import { writePieces } from '../../say-pieces.ts';
import { endsAsked } from '../ends-asked.ts';
import { limitPieces } from '../limit-pieces.ts';

/** A limit to be drawn across a plot, with the set it is from. */
export type AskedLimit = { readonly limit: Limit; readonly set: LimitSet };

/** One end of a limit, as the words beside its line: `Great Britain: at most 8 mm`. */
function labelEnd(
  { limit, set }: AskedLimit,
  end: 'min' | 'max',
  at: number,
  say: Speaker,
): PlotText {
  const only = { min: null, max: null, [end]: at };
  const pieces = limitPieces(limit, only, say);
  const of = (unit: LengthUnit) =>
    say('lesson.plot.limit', { set: set.title, asks: writePieces(pieces, unit, say) });
  return limit.unit === 'mm' ? { mm: of('mm'), inch: of('inch') } : of('mm');
}

const ends = ['min', 'max'] as const;

/** What a limit asks of each bench along a change, in force there or not; ends it does not have are left out. */
export type LimitEnds = {
  readonly asked: AskedLimit;
  readonly end: 'min' | 'max';
  /** null where it hangs on a part that is off */
  readonly along: readonly (number | null)[];
};

/** @throws Error in one sentence when it asks for no size, so that nothing can be drawn */
export function limitEnds(asked: AskedLimit, benches: readonly (Bench | null)[]): LimitEnds[] {
  const results = benches.map((bench) =>
    bench === null ? null : endsAsked(asked.limit, bench, measureBench(bench)),
  );
  const found = ends
    .map((end) => ({ asked, end, along: results.map((result) => result?.[end] ?? null) }))
    .filter(({ along }) => along.some((at) => at !== null));
  if (found.length === 0)
    throw new Error(`The limit ${asked.limit.id} asks for no size that could be drawn here.`);
  return found;
}

/** Whether an end is the same all along, so that it is a straight line. */
export function isSteady({ along }: LimitEnds): boolean {
  const known = along.filter((at) => at !== null);
  return known.every((at) => Math.abs(at - (known[0] as number)) < 1e-9);
}

/** A straight line across for an end that is the same all along. */
export function lineOf({ asked, end, along }: LimitEnds, axis: 'x' | 'y', say: Speaker): PlotLine {
  const at = along.find((one) => one !== null) as number;
  return { axis, at, label: labelEnd(asked, end, at, say) };
}

/** Words for an end that changes along the plot. */
export const nameEnd = ({ asked, end }: LimitEnds, say: Speaker): string =>
  say(end === 'min' ? 'lesson.plot.least' : 'lesson.plot.most', { set: asked.set.title });
