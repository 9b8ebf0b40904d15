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

const rubsBelow = (bench: Bench, assumed: CutAssumptions): PlotLine => ({
  axis: 'y',
  at: thinnestFor(bench, assumed),
  label: 'Rubs below this',
});

/** Half a millimetre and under from point to point: the curves bend sharply at their start. */
const STEPS_IN_MM = 2;
/** mm of rise under which there is nothing to draw: thick stock may reach as high as the blade does. */
const LEAST_RISE = 5;

/** What raising the blade does: entry angle, teeth in the cut, chip and push-back against its height. */
export function plotRaising(bench: Bench, cut: Cut, assumed: CutAssumptions): PlotRequest[] {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const highest = Math.floor(highestBlade(bench) - stock);
  if (highest < LEAST_RISE) return [];
  const raised = raiseThrough(bench, highest, highest * STEPS_IN_MM + 1);
  const along: Along = {
    x: { title: 'Blade above the stock', unit: 'mm' },
    points: raised.map((point) => ({ at: point.aboveStock, cut: point.cut })),
    now: { at: tipRadius - depth - stock, cut },
  };
  const shown: readonly Shown[] = [
    {
      title: 'Entry angle against blade height',
      y: { title: 'Entry angle', unit: 'degrees' },
      description: 'The higher the blade, the more steeply the teeth come down on the stock.',
      curves: { 'Entry angle': ({ entry }) => entry },
      label: (angle) => `Now ${angle.toFixed(1)}°`,
    },
    {
      title: 'Teeth in the cut against blade height',
      y: { title: 'Teeth in the cut', unit: '' },
      description: 'The higher the blade, the fewer teeth are in the stock at once.',
      curves: { 'Teeth in the cut': ({ teethInCut }) => teethInCut },
      label: (teeth) => `Now ${teeth.toFixed(1)}`,
    },
    {
      title: 'Chip thickness against blade height',
      y: { title: 'Chip thickness', unit: 'mm' },
      description: 'The higher the blade, the thicker each chip.',
      curves: { Mean: ({ chip }) => chip.mean, 'Where it enters': ({ chip }) => chip.entry },
      label: () => 'Now',
      lines: [rubsBelow(bench, assumed)],
    },
    {
      title: 'Push-back against blade height',
      y: { title: 'Share of the force that pushes back', unit: '%' },
      description:
        'The higher the blade, the smaller the share of the force that pushes the stock back at the operator.',
      curves: { 'Push-back': ({ pushBackShare }) => 100 * pushBackShare },
      label: (share) => `Now ${share.toFixed(0)} %`,
    },
  ];
  return shown.map((one) => plot(along, one));
}

/** m/min: as fast as anybody pushes by hand, and beyond where the bench is fed faster. */
const FAST_BY_HAND = 20;
const FEEDS = 40;

/** What feeding faster does: power against the rating of the motor, and the chip against rubbing. */
export function plotFeeding(bench: Bench, cut: Cut, assumed: CutAssumptions): PlotRequest[] {
  const { fed } = bench.job;
  const { motorPower } = bench.arbor;
  const fastest = Math.max(FAST_BY_HAND, 1.25 * fed);
  const along: Along = {
    x: { title: 'Feed', unit: 'm/min' },
    points: Array.from({ length: FEEDS }, (_, i) => {
      const at = (fastest * (i + 1)) / FEEDS;
      return { at, cut: cutOfBench({ ...bench, job: { ...bench.job, fed: at } }, assumed) };
    }).filter((point): point is { at: number; cut: Cut } => point.cut !== null),
    now: { at: fed, cut },
  };
  const rating: PlotLine[] =
    motorPower === undefined ? [] : [{ axis: 'y', at: motorPower, label: 'Motor rating' }];
  return [
    plot(along, {
      title: 'Power wanted against feed',
      y: { title: 'Power wanted', unit: 'W' },
      description: 'Feeding twice as fast wants twice the power, on the assumed force of the wood.',
      curves: { 'Power wanted': ({ power }) => power },
      label: (power) => `Now ${power.toFixed(0)} W`,
      lines: rating,
    }),
    plot(along, {
      title: 'Mean chip against feed',
      y: { title: 'Mean chip', unit: 'mm' },
      description:
        'Feeding slowly makes a thin chip. Under the dotted line the teeth rub and burn.',
      curves: { 'Mean chip': ({ chip }) => chip.mean },
      label: () => 'Now',
      lines: [rubsBelow(bench, assumed)],
    }),
  ];
}
