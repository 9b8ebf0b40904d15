import {
  type Bench,
  bladeFrame,
  type Cut,
  type CutAssumptions,
  cutOfBench,
  raiseThrough,
  thinnestFor,
} from '../../bench/index.ts';
import type { PlotLine, PlotRequest } from '../../drawing/index.ts';
import type { Speaker } from '../../words/say.ts';
import { highestBlade } from './fields.ts';

/** One thing about the cut that a plot shows. */
type Shown = {
  readonly title: string;
  readonly y: { readonly title: string; readonly unit: string };
  readonly description: string;
  readonly curves: Readonly<Record<string, (cut: Cut) => number>>;
  readonly label: (value: number) => string;
  readonly lines?: readonly PlotLine[];
};

type Along = {
  readonly x: { readonly title: string; readonly unit: string };
  readonly points: readonly { readonly at: number; readonly cut: Cut }[];
  /** where the bench stands now; the first curve is marked there */
  readonly now: { readonly at: number; readonly cut: Cut };
};

function plot({ x, points, now }: Along, shown: Shown): PlotRequest {
  const curves = Object.entries(shown.curves);
  const [first] = curves;
  const [least, most] = [points[0]?.at ?? 0, points[points.length - 1]?.at ?? 0];
  const isShown = first !== undefined && now.at >= least && now.at <= most;
  const value = first?.[1](now.cut) ?? 0;
  return {
    title: shown.title,
    description: shown.description,
    x: { ...x, reaches: [0] },
    y: { ...shown.y, reaches: [0] },
    curves: curves.map(([label, of]) => ({
      label,
      points: points.map(({ at, cut }) => ({ x: at, y: of(cut) })),
    })),
    marks: isShown ? [{ x: now.at, y: value, label: shown.label(value) }] : [],
    lines: shown.lines ?? [],
  };
}

const rubsBelow = (bench: Bench, assumed: CutAssumptions, say: Speaker): PlotLine => ({
  axis: 'y',
  at: thinnestFor(bench, assumed),
  label: say('workings.plot.rubs'),
});

/** Half a millimetre and under from point to point: the curves bend sharply at their start. */
const STEPS_IN_MM = 2;
/** mm of rise under which there is nothing to draw: thick stock may reach as high as the blade does. */
const LEAST_RISE = 5;

/** What raising the blade does: entry angle, teeth in the cut, chip and push-back against its height. */
export function plotRaising(
  bench: Bench,
  cut: Cut,
  assumed: CutAssumptions,
  say: Speaker,
): PlotRequest[] {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const highest = Math.floor(highestBlade(bench) - stock);
  if (highest < LEAST_RISE) return [];
  const raised = raiseThrough(bench, highest, highest * STEPS_IN_MM + 1);
  const along: Along = {
    x: { title: say('workings.plot.above'), unit: 'mm' },
    points: raised.map((point) => ({ at: point.aboveStock, cut: point.cut })),
    now: { at: tipRadius - depth - stock, cut },
  };
  const shown: readonly Shown[] = [
    {
      title: say('workings.plot.entry.title'),
      y: { title: say('workings.plot.entry'), unit: say('workings.unit.degrees') },
      description: say('workings.plot.entry.about'),
      curves: { [say('workings.plot.entry')]: ({ entry }) => entry },
      label: (angle) => say('workings.plot.now', { value: say.figures(`${angle.toFixed(1)}°`) }),
    },
    {
      title: say('workings.plot.teeth.title'),
      y: { title: say('workings.plot.teeth'), unit: '' },
      description: say('workings.plot.teeth.about'),
      curves: { [say('workings.plot.teeth')]: ({ teethInCut }) => teethInCut },
      label: (teeth) => say('workings.plot.now', { value: say.figures(teeth.toFixed(1)) }),
    },
    {
      title: say('workings.plot.chip.title'),
      y: { title: say('workings.plot.chip'), unit: 'mm' },
      description: say('workings.plot.chip.about'),
      curves: {
        [say('workings.plot.chip.mean')]: ({ chip }) => chip.mean,
        [say('workings.plot.chip.enters')]: ({ chip }) => chip.entry,
      },
      label: () => say('workings.plot.now.bare'),
      lines: [rubsBelow(bench, assumed, say)],
    },
    {
      title: say('workings.plot.push.title'),
      y: { title: say('workings.plot.push.share'), unit: '%' },
      description: say('workings.plot.push.about'),
      curves: { [say('workings.plot.push')]: ({ pushBackShare }) => 100 * pushBackShare },
      label: (share) => say('workings.plot.now', { value: `${share.toFixed(0)} %` }),
    },
  ];
  return shown.map((one) => plot(along, one));
}

/** m/min: as fast as anybody pushes by hand, and beyond where the bench is fed faster. */
const FAST_BY_HAND = 20;
const FEEDS = 40;

/** What feeding faster does: power against the rating of the motor, and the chip against rubbing. */
export function plotFeeding(
  bench: Bench,
  cut: Cut,
  assumed: CutAssumptions,
  say: Speaker,
): PlotRequest[] {
  const { fed } = bench.job;
  const { motorPower } = bench.arbor;
  const fastest = Math.max(FAST_BY_HAND, 1.25 * fed);
  const along: Along = {
    x: { title: say('workings.plot.feed'), unit: 'm/min' },
    points: Array.from({ length: FEEDS }, (_, i) => {
      const at = (fastest * (i + 1)) / FEEDS;
      return { at, cut: cutOfBench({ ...bench, job: { ...bench.job, fed: at } }, assumed) };
    }).filter((point): point is { at: number; cut: Cut } => point.cut !== null),
    now: { at: fed, cut },
  };
  const rating: PlotLine[] =
    motorPower === undefined
      ? []
      : [{ axis: 'y', at: motorPower, label: say('workings.plot.rating') }];
  return [
    plot(along, {
      title: say('workings.plot.power.title'),
      y: { title: say('workings.plot.power'), unit: 'W' },
      description: say('workings.plot.power.about'),
      curves: { [say('workings.plot.power')]: ({ power }) => power },
      label: (power) => say('workings.plot.now', { value: `${power.toFixed(0)} W` }),
      lines: rating,
    }),
    plot(along, {
      title: say('workings.plot.mean.title'),
      y: { title: say('workings.plot.mean'), unit: 'mm' },
      description: say('workings.plot.mean.about'),
      curves: { [say('workings.plot.mean')]: ({ chip }) => chip.mean },
      label: () => say('workings.plot.now.bare'),
      lines: [rubsBelow(bench, assumed, say)],
    }),
  ];
}
