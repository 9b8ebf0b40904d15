import {
  ASSUMED_CUT,
  type Bench,
  bladeFrame,
  type Cut,
  cutOfBench,
  type MeasureId,
  responsesOf,
  thinnestFor,
} from '../../bench/index.ts';
import type { PlotRequest } from '../../drawing/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { plotFeeding, plotRaising } from './cutting-plots.ts';

export type Cutting = {
  readonly cut: Cut;
  /** mm of blade above the stock now; negative when it does not come through */
  readonly aboveStock: number;
  /** N for each square millimetre of chip, assumed */
  readonly chipForce: number;
  /** mm: a thinner chip rubs with this edge */
  readonly thinnestChip: number;
  /** what one more mm of blade does here, in the unit of the measure; null where nothing can be said */
  readonly perMm: { readonly entryAngle: number | null; readonly teethInCut: number | null };
  readonly raising: readonly PlotRequest[];
  readonly feeding: readonly PlotRequest[];
};

/** Change of a measure for each mm the blade is raised; the axis then comes up, so its depth falls. */
function perMmRaised(bench: Bench, measure: MeasureId): number | null {
  const found = responsesOf(bench, measure).find(({ setting }) => setting === 'arbor.depth');
  return found === undefined ? null : -found.perMm;
}

/** How the bench cuts, and what raising its blade or feeding faster does. Null where nothing is fed. */
export function cuttingOf(
  bench: Bench,
  chipForce: number,
  say: Speaker = sayIn('en'),
): Cutting | null {
  const assumed = { ...ASSUMED_CUT, specificCutting: chipForce };
  const cut = cutOfBench(bench, assumed);
  if (cut === null) return null;
  const { tipRadius, depth, stock } = bladeFrame(bench);
  return {
    cut,
    aboveStock: tipRadius - depth - stock,
    chipForce,
    thinnestChip: thinnestFor(bench, assumed),
    perMm: {
      entryAngle: perMmRaised(bench, 'blade.entryAngle'),
      teethInCut: perMmRaised(bench, 'blade.teethInCut'),
    },
    raising: plotRaising(bench, cut, assumed, say),
    feeding: plotFeeding(bench, cut, assumed, say),
  };
}
