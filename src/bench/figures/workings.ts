import {
  arcOfBench,
  brakingTorque,
  type Cut,
  clearOfStrip,
  cutOfBench,
  exposurePoints,
  spinEnergy,
  steelDisc,
  throwStrip,
  timeToReach,
  USUAL_BORE,
  worstThrow,
} from '../mechanics/index.ts';
import type { Bench } from '../schema/index.ts';
import type { FigureUnit } from './figure.ts';

/** A figure worked out from a bench that is no measure of it: nobody can take it with a rule. */
export type Working = {
  readonly unit: FigureUnit;
  readonly title: string;
  /** null where the bench gives it no meaning: nothing is fed, nobody stands behind the blade */
  readonly of: (bench: Bench) => number | null;
};

const ofCut =
  (read: (cut: Cut) => number): Working['of'] =>
  (bench) => {
    const cut = cutOfBench(bench);
    return cut === null ? null : read(cut);
  };

const discOf = ({ blade }: Bench) =>
  steelDisc(blade.diameter, blade.plate, blade.bore ?? USUAL_BORE);

/** s a person needs only to begin to move: from memory, as it is told beside the throw. */
const BEGIN_TO_MOVE = 0.2;

/**
 * Power is worked out with the assumed force of the wood (`ASSUMED_CUT`). What is thrown is estimated for
 * the worst: no knife, the kerf closed by its whole width (`worstThrow`).
 */
export const WORKINGS = {
  'cut.feedPerTooth': { unit: 'mm', title: 'Feed for each tooth', of: ofCut(({ bite }) => bite) },
  'cut.entryAngle': { unit: 'deg', title: 'Entry angle', of: ofCut(({ entry }) => entry) },
  'cut.exitAngle': { unit: 'deg', title: 'Exit angle', of: ofCut(({ exit }) => exit) },
  'cut.arc': {
    unit: 'mm',
    title: 'Way of a tooth through the stock',
    of: (bench) => arcOfBench(bench).arc.length,
  },
  'cut.teeth': { unit: 'count', title: 'Teeth in the cut', of: ofCut((cut) => cut.teethInCut) },
  'cut.chipEntry': {
    unit: 'mm',
    title: 'Chip where it begins',
    of: ofCut(({ chip }) => chip.entry),
  },
  'cut.chipExit': { unit: 'mm', title: 'Chip where it ends', of: ofCut(({ chip }) => chip.exit) },
  'cut.chipMean': { unit: 'mm', title: 'Mean chip', of: ofCut(({ chip }) => chip.mean) },
  'cut.pushBack': {
    unit: '%',
    title: 'Share of the force that pushes back',
    of: ofCut((cut) => 100 * cut.pushBackShare),
  },
  'cut.power': { unit: 'W', title: 'Power wanted', of: ofCut(({ power }) => power) },
  'blade.mass': { unit: 'kg', title: 'Mass of the blade', of: (bench) => discOf(bench).mass },
  'blade.energy': {
    unit: 'J',
    title: 'Energy in the turning blade',
    of: (bench) => spinEnergy(discOf(bench), bench.arbor.speed),
  },
  'blink.turns': {
    unit: 'count',
    title: 'Turns of the blade while a person begins to move',
    of: ({ arbor }) => (arbor.speed / 60) * BEGIN_TO_MOVE,
  },
  'blink.teeth': {
    unit: 'count',
    title: 'Teeth that pass while a person begins to move',
    of: ({ arbor, blade }) => (arbor.speed / 60) * BEGIN_TO_MOVE * blade.teeth,
  },
  'stop.torque': {
    unit: 'N m',
    title: 'Torque that stops the blade',
    of: (bench) => brakingTorque(discOf(bench), bench.arbor.speed, bench.arbor.runDown),
  },
  'piece.mass': { unit: 'kg', title: 'Mass of the piece', of: (bench) => worstThrow(bench).mass },
  'throw.speed': {
    unit: 'm/s',
    title: 'Speed of a thrown piece',
    of: (bench) => worstThrow(bench).speed,
  },
  'throw.energy': {
    unit: 'J',
    title: 'Energy of a thrown piece',
    of: (bench) => worstThrow(bench).energy,
  },
  'throw.arrival': {
    unit: 'ms',
    title: 'Time until a thrown piece reaches the operator',
    of: (bench) => {
      const { x } = bench.people.operator;
      return x < 0 ? timeToReach(-x, worstThrow(bench).speed) : null;
    },
  },
  'strip.width': {
    unit: 'mm',
    title: 'Width of the strip to keep clear',
    of: (bench) => {
      const { from, to } = throwStrip(bench);
      return to - from;
    },
  },
  'noise.points': {
    unit: 'count',
    title: 'Noise points of the day',
    of: ({ exposure }) => (exposure?.noise === undefined ? null : exposurePoints(exposure.noise)),
  },
  'strip.clearBy': { unit: 'mm', title: 'Body clear of the strip by', of: clearOfStrip },
} as const satisfies Record<string, Working>;

export type WorkingId = keyof typeof WORKINGS;
export const isWorking = (text: string): text is WorkingId => Object.hasOwn(WORKINGS, text);
