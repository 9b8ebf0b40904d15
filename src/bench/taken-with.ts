import { INSTRUMENTS, type InstrumentId } from './instruments.ts';
import type { MeasureId } from './measures/index.ts';

/** One way to take a measure: with what, and how many readings go into it. */
type Way = { readonly with: InstrumentId; readonly readings?: 2 };

const rule: Way = { with: 'rule' };
const square: Way = { with: 'square' };
const feeler: Way = { with: 'feeler' };
const calliper: Way = { with: 'calliper' };
const straightedge: Way = { with: 'straightedge' };
const dial: Way = { with: 'dial' };
const twoByCalliper: Way = { with: 'calliper', readings: 2 };
const twoByDial: Way = { with: 'dial', readings: 2 };

/** How the lengths of a bench can be taken by hand, the coarsest way first. Common practice, no source. */
const WAYS: Partial<Record<MeasureId, readonly Way[]>> = {
  'blade.projection': [rule, square, calliper],
  'blade.crack': [rule, calliper],
  'knife.gapMax': [rule, feeler],
  'knife.gapMin': [rule, feeler],
  'knife.gapAtTable': [rule, feeler],
  'knife.tipHeight': [rule, square, calliper],
  'knife.tipDrop': [rule, square, calliper],
  'knife.overPlate': [twoByCalliper],
  'knife.underKerf': [twoByCalliper],
  'knife.play': [rule, dial],
  'guard.clearance': [rule, feeler],
  'guard.leadFront': [rule, square],
  'guard.leadRear': [rule, square],
  'guard.play': [rule, dial],
  'fence.overrun': [rule],
  'fence.pastGullets': [rule],
  'fence.toe': [twoByCalliper, twoByDial],
  'insert.gapMax': [rule, feeler],
  'insert.step': [straightedge, dial],
  'stick.length': [rule],
};

/** One instrument that can take a measure, and U of what comes of it. */
export type Taking = { readonly instrument: InstrumentId; readonly uncertainty: number };

/**
 * The instruments that can take a measure of about this length, the coarsest first.
 * Where two readings go into it their uncertainties add in quadrature (JCGM 100:2008, 5.1.2).
 * @param length mm
 */
export function takingsOf(measure: MeasureId, length: number): Taking[] {
  return (WAYS[measure] ?? []).flatMap(({ with: instrument, readings = 1 }) => {
    const { longest, uncertainty } = INSTRUMENTS[instrument];
    if (Math.abs(length) > longest) return [];
    return [{ instrument, uncertainty: uncertainty * Math.sqrt(readings) }];
  });
}
