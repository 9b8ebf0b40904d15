import {
  type Bench,
  bindingOf,
  bladeFrame,
  brakingTorque,
  type Cut,
  cutArc,
  cutOfBench,
  spinEnergy,
  steelDisc,
  throwOf,
  throwStrip,
  timeToReach,
  USUAL_BORE,
} from '../../bench/index.ts';
import { TRUNK } from '../workings/thrown.ts';
import type { FigureUnit } from './figure-units.ts';

/** A figure a lesson may name that is worked out from the bench and is no measure of it. */
type Working = {
  readonly unit: FigureUnit;
  /** null where the bench gives it no meaning: nothing is fed, nothing comes through */
  readonly of: (bench: Bench) => number | null;
};

const cut =
  (of: (cut: Cut) => number) =>
  (bench: Bench): number | null => {
    const found = cutOfBench(bench);
    return found === null ? null : of(found);
  };

/** mm of the tooth circle inside the stock. */
function arcLength(bench: Bench): number {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const arc = cutArc(tipRadius, depth, Math.min(stock, tipRadius - depth));
  return tipRadius * (arc.exit - arc.entry);
}

const disc = ({ blade }: Bench) => steelDisc(blade.diameter, blade.plate, blade.bore ?? USUAL_BORE);

/**
 * The piece between blade and fence once the rim has it, with no knife and the kerf closed by its
 * whole width: what the throw comes to when nothing holds it. An estimate, see /workings.
 */
const thrown = (bench: Bench) =>
  throwOf(bench, bindingOf({ ...bench, knife: null }, { closing: bench.blade.kerf }));

/** mm the trunk of the operator is clear of the strip of a thrown piece; 0 or less is in it. */
function clearBy(bench: Bench): number {
  const { from, to } = throwStrip(bench);
  const { z } = bench.people.operator;
  return Math.max(from - (z + TRUNK / 2), z - TRUNK / 2 - to);
}

export const WORKINGS = {
  'cut.feedPerTooth': { unit: 'mm', of: cut(({ bite }) => bite) },
  'cut.entryAngle': { unit: 'deg', of: cut(({ entry }) => entry) },
  'cut.exitAngle': { unit: 'deg', of: cut(({ exit }) => exit) },
  'cut.arc': { unit: 'mm', of: arcLength },
  'cut.teeth': { unit: 'count', of: cut(({ teethInCut }) => teethInCut) },
  'cut.chipEntry': { unit: 'mm', of: cut(({ chip }) => chip.entry) },
  'cut.chipExit': { unit: 'mm', of: cut(({ chip }) => chip.exit) },
  'cut.chipMean': { unit: 'mm', of: cut(({ chip }) => chip.mean) },
  'cut.pushBack': { unit: '%', of: cut(({ pushBackShare }) => 100 * pushBackShare) },
  'cut.power': { unit: 'W', of: cut(({ power }) => power) },
  'blade.mass': { unit: 'kg', of: (bench) => disc(bench).mass },
  'blade.energy': { unit: 'J', of: (bench) => spinEnergy(disc(bench), bench.arbor.speed) },
  'stop.torque': {
    unit: 'N m',
    of: (bench) => brakingTorque(disc(bench), bench.arbor.speed, bench.arbor.runDown),
  },
  'piece.mass': { unit: 'kg', of: (bench) => thrown(bench).mass },
  'throw.speed': { unit: 'm/s', of: (bench) => thrown(bench).speed },
  'throw.energy': { unit: 'J', of: (bench) => thrown(bench).energy },
  'throw.arrival': {
    unit: 'ms',
    of: (bench) => timeToReach(-bench.people.operator.x, thrown(bench).speed),
  },
  'strip.width': {
    unit: 'mm',
    of: (bench) => {
      const { from, to } = throwStrip(bench);
      return to - from;
    },
  },
  'strip.clearBy': { unit: 'mm', of: clearBy },
} as const satisfies Record<string, Working>;

export type WorkingId = keyof typeof WORKINGS;
export const isWorking = (id: string): id is WorkingId => Object.hasOwn(WORKINGS, id);
