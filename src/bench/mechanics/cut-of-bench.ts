import { radiansToDegrees } from '../../geometry/index.ts';
import { bladeFrame } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import {
  type CutArc,
  chipThickness,
  cutArc,
  feedPerTooth,
  gulletFill,
  meanChipThickness,
  teethInArc,
} from './chip.ts';
import { cuttingPower, meanRimForce } from './force.ts';
import { rimSpeed } from './speed.ts';

/**
 * What has to be assumed to put a figure on power and rubbing. Neither is published for a given
 * timber in a form that could be checked, so both are labelled wherever a result is shown.
 */
export type CutAssumptions = {
  /** kc, N/mm2: force a square millimetre of chip wants. Handbooks give 15 to 100 without provenance (from memory) */
  readonly specificCutting: number;
  /** mm: a chip thinner than this rubs more than it cuts. Common practice, no source */
  readonly thinnestChip: number;
};

export const ASSUMED_CUT: CutAssumptions = { specificCutting: 30, thinnestChip: 0.05 };

/** A dull edge wants about twice the chip before it bites: common practice, no source. */
const DULL_FACTOR = 2;

export type Cut = {
  /** m/s */
  readonly rimSpeed: number;
  /** mm each tooth advances */
  readonly bite: number;
  /** degrees from the top of the blade toward the operator, at the top of the stock and at the table */
  readonly entry: number;
  readonly exit: number;
  /** mm of chip at entry, at exit, and in the mean */
  readonly chip: { readonly entry: number; readonly exit: number; readonly mean: number };
  readonly teethInCut: number;
  /** share of a gullet that one solid chip fills; sawdust takes several times its solid volume */
  readonly gulletFill: number;
  /** W at the blade, on the assumed kc */
  readonly power: number;
  /** `power` against the rating of the motor, 1 being all of it; null where the rating is not known */
  readonly powerShare: number | null;
  /** N, mean along the rim */
  readonly force: number;
  /** share of the cutting force that pushes the stock back at the operator, 0 to 1 */
  readonly pushBackShare: number;
  /** the mean chip is thinner than the edge can bite: the tooth rubs, and the cut may burn */
  readonly rubs: boolean;
};

/**
 * The share of the cutting force that pushes back: (2 d + t) / (2 R).
 * With the force on each tooth in proportion to its chip, sin(angle), the mean over the arc of its
 * share along the feed comes to the mean of the cosines of entry and exit.
 */
export const pushBackShare = (tipRadius: number, depth: number, stock: number): number =>
  (Math.min(tipRadius, depth + stock) + depth) / (2 * tipRadius);

/** mm: the thinnest mean chip the edge of this blade bites rather than rubs. */
export const thinnestFor = ({ blade }: Bench, { thinnestChip }: CutAssumptions): number =>
  thinnestChip * (blade.condition.sharpness === 'sharp' ? 1 : DULL_FACTOR);

/** The part of the tooth circle that lies in the stock, and how much of the stock is cut through, mm. */
export function arcOfBench(bench: Bench): { readonly arc: CutArc; readonly through: number } {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const through = Math.min(stock, tipRadius - depth);
  return { arc: cutArc(tipRadius, depth, through), through };
}

/** How a bench cuts the job on it. `null` when the stock stands still: nothing is cut. */
export function cutOfBench(bench: Bench, assumed: CutAssumptions = ASSUMED_CUT): Cut | null {
  const { blade, arbor, job } = bench;
  if (job.fed === 0) return null;
  const { tipRadius, depth } = bladeFrame(bench);
  const { arc, through } = arcOfBench(bench);
  const bite = feedPerTooth(job.fed, arbor.speed, blade.teeth);
  const mean = meanChipThickness(bite, through, arc);
  const power = cuttingPower(assumed.specificCutting, blade.kerf, through, job.fed);
  const rim = rimSpeed(blade.diameter, arbor.speed);
  return {
    rimSpeed: rim,
    bite,
    entry: radiansToDegrees(arc.entry),
    exit: radiansToDegrees(arc.exit),
    chip: { entry: chipThickness(bite, arc.entry), exit: chipThickness(bite, arc.exit), mean },
    teethInCut: teethInArc(blade.teeth, arc),
    gulletFill: gulletFill(tipRadius, blade.teeth, blade.gulletDepth, bite, through),
    power,
    powerShare: arbor.motorPower === undefined ? null : power / arbor.motorPower,
    force: meanRimForce(power, rim),
    pushBackShare: pushBackShare(tipRadius, depth, through),
    rubs: mean < thinnestFor(bench, assumed),
  };
}

/** One point of the curve of what raising the blade does. */
export type Raised = { readonly aboveStock: number; readonly cut: Cut };

/**
 * The same job with the blade from just through the stock up to as high as it goes.
 * @param steps points on the curve, 2 or more
 * @param highest mm above the stock for the last point
 */
export function raiseThrough(bench: Bench, highest: number, steps: number): Raised[] {
  const { tipRadius, stock } = bladeFrame(bench);
  return Array.from({ length: steps }, (_, i) => {
    const aboveStock = (highest * i) / (steps - 1);
    const depth = Math.max(0, tipRadius - stock - aboveStock);
    const cut = cutOfBench({ ...bench, arbor: { ...bench.arbor, depth } });
    return cut === null ? null : { aboveStock: tipRadius - depth - stock, cut };
  }).filter((point) => point !== null);
}
