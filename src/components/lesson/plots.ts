import {
  type Bench,
  type Figure,
  findFigure,
  isMeasureId,
  isPlainUnit,
  MEASURES,
  measureBench,
  TRUNK,
  throwStrip,
} from '../../bench/index.ts';
import {
  drawChip,
  drawCut,
  drawStrip,
  drawTip,
  type PlotLine,
  type PlotRequest,
} from '../../drawing/index.ts';
import { BENCH_SCOPE, judgeLimit, type Limit } from '../../limits/index.ts';
import type { Speaker } from '../../words/say.ts';
import { cuttingOf } from '../workings/cutting.ts';
import { plotHours } from '../workings/day.ts';
import { stoppingOf } from '../workings/stopping.ts';
import { throwingOf } from '../workings/thrown.ts';

/** A plot with its values beside it, or a drawing computed for a point. */
export type Shown =
  | { readonly kind: 'plot'; readonly request: PlotRequest; readonly by: 'x' | 'y' }
  | { readonly kind: 'drawn'; readonly svg: string };

type Named = { readonly title: string; readonly description: string };

/** N/mm2 of chip, mm the kerf would close by: assumed as on /workings, and labelled there. */
const CHIP_FORCE = 30;
const CLOSING = 2;

const plot = (
  request: PlotRequest | undefined,
  { title, description }: Named,
  by: 'x' | 'y' = 'x',
): Shown => {
  if (request === undefined)
    throw new Error(`The plot "${title}" has nothing to show on this bench.`);
  return { kind: 'plot', request: { ...request, title, description }, by };
};

const raising = (bench: Bench, at: number) => cuttingOf(bench, CHIP_FORCE)?.raising[at];
const feeding = (bench: Bench, at: number) => cuttingOf(bench, CHIP_FORCE)?.feeding[at];
const without = (bench: Bench): Bench => ({ ...bench, knife: null });

/** Plots that are ready to be named, in the order of the guide for writers. */
export const READY: Readonly<Record<string, (bench: Bench, named: Named) => Shown>> = {
  'entry-angle': (bench, named) => plot(raising(bench, 0), named),
  'teeth-in-cut': (bench, named) => plot(raising(bench, 1), named),
  'chip-thickness': (bench, named) => plot(raising(bench, 2), named),
  'push-back': (bench, named) => plot(raising(bench, 3), named),
  power: (bench, named) => plot(feeding(bench, 0), named),
  'chip-by-feed': (bench, named) => plot(feeding(bench, 1), named),
  chip: (bench, named) => ({ kind: 'drawn', svg: drawChip(bench, named) }),
  cut: (bench, named) => ({ kind: 'drawn', svg: drawCut(bench, named) }),
  strip: (bench, named) => ({
    kind: 'drawn',
    svg: drawStrip(bench, throwStrip(bench), TRUNK, named),
  }),
  tip: (bench, named) => ({ kind: 'drawn', svg: drawTip(bench, named) }),
  'run-down': (bench, named) => plot(stoppingOf(bench, null).plot, named, 'y'),
  throw: (bench, named) => plot(throwingOf(bench, without(bench), CLOSING).plot, named),
  'noise-day': (_bench, named) => plot(plotHours(), named, 'y'),
};

export const READY_PLOTS = Object.keys(READY);

export type Change = {
  /** field of the bench file that is changed: `arbor.depth` */
  readonly change: string;
  readonly from: number;
  readonly to: number;
  /** measures, fields, workings or sums drawn against it */
  readonly of: readonly string[];
  readonly limits: readonly Limit[];
};

/** The bench with one field set to another value. */
function setField(bench: Bench, path: string, value: number): Bench {
  const [key = '', ...rest] = path.split('.');
  const inner = (bench as unknown as Record<string, unknown>)[key];
  return {
    ...bench,
    [key]: rest.length === 0 ? value : setField(inner as Bench, rest.join('.'), value),
  };
}

const POINTS = 60;

function nameOf(of: string, say: Speaker): string {
  if (isMeasureId(of)) return say.maybe(`names.measure.${of}`, MEASURES[of].title);
  return say.maybe(`figures.${of}`, of);
}

const unitWords = ({ unit }: Pick<Figure, 'unit'>): string =>
  isPlainUnit(unit) ? '' : unit === 'deg' ? '°' : unit;

function valueAt(bench: Bench, of: string): number | null {
  try {
    return findFigure(bench, of).value;
  } catch {
    // past the point where the bench gives it a meaning the pen is lifted
    return null;
  }
}

/** The limit as a line across, where it is one and the same all along. */
function linesOf(limit: Limit, bench: Bench, axis: 'x' | 'y', say: Speaker): PlotLine[] {
  const { min, max } = judgeLimit(limit, bench, measureBench(bench));
  const label = say.maybe(`limit-titles.${limit.id}`, limit.id);
  return [min, max].flatMap((at) => (at === null ? [] : [{ axis, at, label }]));
}

/**
 * What becomes of measures when one field of the bench is changed: the bench is worked out anew for
 * each value, and where it stands now is marked on the first curve.
 * @throws when the field is no number of this bench, or nothing can be worked out
 */
export function plotChange(bench: Bench, asked: Change, named: Named, say: Speaker): PlotRequest {
  const { change, from, to, of, limits } = asked;
  const now = findFigure(bench, change);
  const figures = of.map((one) => findFigure(bench, one));
  const [first] = figures;
  if (first === undefined) throw new Error(`The plot "${named.title}" names nothing to draw.`);
  const steps = Array.from({ length: POINTS + 1 }, (_, i) => from + ((to - from) * i) / POINTS);
  const benches = steps.map((x) => ({ x, bench: setField(bench, change, x) }));
  const subject = BENCH_SCOPE.find(change);
  if (subject?.kind !== 'number') throw new Error(`${change} is no number of a bench.`);
  const isShown = now.value >= from && now.value <= to;
  return {
    ...named,
    x: { title: nameOf(change, say), unit: unitWords(now) },
    y: {
      title: figures.length === 1 ? nameOf(of[0] as string, say) : say('lesson.plot.y'),
      unit: unitWords(first),
      reaches: [0],
    },
    curves: of.map((one) => ({
      label: nameOf(one, say),
      points: benches.map(({ x, bench: changed }) => {
        const y = valueAt(changed, one);
        return y === null ? null : { x, y };
      }),
    })),
    marks: isShown ? [{ x: now.value, y: first.value, label: say('lesson.plot.now') }] : [],
    lines: limits.flatMap((limit) =>
      linesOf(limit, bench, limit.measure === change ? 'x' : 'y', say),
    ),
  };
}
