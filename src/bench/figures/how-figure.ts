import type { Bench } from '../schema/index.ts';
import type { Figure } from './figure.ts';
import { findFigure, namesOf } from './find-figure.ts';

/** One figure on the way to another: its name, its value, and what it was worked out from. */
export type FigureStep = {
  readonly name: string;
  readonly figure: Figure;
  readonly from: readonly { readonly name: string; readonly figure: Figure }[];
};

const FEED = ['job.fed', 'arbor.speed', 'blade.teeth'];
const ARC = ['blade.diameter', 'arbor.depth', 'job.stock.thickness'];
const DISC = ['blade.diameter', 'blade.plate'];
const PIECE = ['job.stock.length', 'job.widthOfCut', 'job.stock.thickness', 'job.stock.density'];

/** What each figure rests on, by the names of figures. A name that is not here is read off the bench. */
const FROM: Readonly<Record<string, readonly string[]>> = {
  'cut.feedPerTooth': FEED,
  'cut.entryAngle': ARC,
  'cut.exitAngle': ARC,
  'cut.arc': ARC,
  'cut.teeth': ['cut.arc', 'blade.diameter', 'blade.teeth'],
  'cut.chipEntry': ['cut.feedPerTooth', 'cut.entryAngle'],
  'cut.chipExit': ['cut.feedPerTooth', 'cut.exitAngle'],
  'cut.chipMean': ['cut.feedPerTooth', 'job.stock.thickness', 'cut.arc'],
  'cut.pushBack': ['cut.entryAngle', 'cut.exitAngle'],
  'cut.power': ['blade.kerf', 'job.stock.thickness', 'job.fed', 'cut.chipMean'],
  'blade.mass': DISC,
  'blade.energy': ['blade.mass', 'blade.diameter', 'arbor.speed'],
  'blink.turns': ['arbor.speed'],
  'blink.teeth': ['arbor.speed', 'blade.teeth'],
  'stop.torque': ['blade.mass', 'blade.diameter', 'arbor.speed', 'arbor.runDown'],
  'piece.mass': PIECE,
  'throw.speed': ['blade.rimSpeed', 'piece.mass'],
  'throw.energy': ['piece.mass', 'throw.speed'],
  'throw.arrival': ['throw.speed'],
  'strip.width': ['job.widthOfCut', 'blade.kerf'],
  'blade.projection': ['blade.diameter', 'arbor.depth'],
  'blade.aboveStock': ['blade.projection', 'job.stock.thickness'],
  'blade.sizeRatio': ['blade.diameter', 'arbor.largestBlade'],
  'blade.rimSpeed': ['blade.diameter', 'arbor.speed'],
  'blade.speedUse': ['arbor.speed', 'blade.maxSpeed'],
  'blade.entryAngle': ARC,
  'blade.teethInCut': ['cut.arc', 'blade.diameter', 'blade.teeth'],
  'knife.overPlate': ['knife.thickness', 'blade.plate'],
  'knife.underKerf': ['blade.kerf', 'knife.thickness'],
  'knife.plateRatio': ['knife.thickness', 'blade.plate'],
  'knife.sideClear': ['blade.kerf', 'knife.thickness'],
  'knife.tipDrop': ['blade.projection', 'knife.tipHeight'],
  'guard.clearance': ['guard.height', 'job.stock.thickness'],
  'stock.tipsBy': ['job.stock.length', 'table.outfeed'],
};

/** Names of the figures that more is told of than their value. */
export const TOLD_FIGURES: readonly string[] = Object.keys(FROM);

/** The figures of a bench that `names` name; one it has not is left out. */
function figuresFrom(bench: Bench, names: readonly string[]): FigureStep['from'] {
  return names.flatMap((name) => {
    try {
      return [{ name, figure: findFigure(bench, name) }];
    } catch {
      return [];
    }
  });
}

/**
 * How a figure comes about: every figure named in it, in the order of the sum, each with what it was worked
 * out from.
 * @throws Error in one sentence where this bench has no such figure
 */
export function howFigure(bench: Bench, of: string): FigureStep[] {
  return [...new Set(namesOf(of))].map((name) => ({
    name,
    figure: findFigure(bench, name),
    from: figuresFrom(bench, FROM[name] ?? []),
  }));
}
