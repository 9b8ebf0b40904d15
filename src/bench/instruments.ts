/**
 * What lies at a practice bench to measure with. Resolution and uncertainty are common practice with
 * no published source: a half-millimetre steel rule read by eye, feeler leaves in a stack, a vernier
 * calliper to a twentieth, an engineer's square held to the part, a straightedge with leaves under it,
 * and a dial gauge on its stand, to a hundredth, known to two.
 */
export type InstrumentId = 'rule' | 'feeler' | 'calliper' | 'square' | 'straightedge' | 'dial';

export type Instrument = {
  readonly id: InstrumentId;
  readonly title: string;
  /** mm, the smallest step it can show */
  readonly resolution: number;
  /** mm, U: the true value lies within this of the reading */
  readonly uncertainty: number;
  /** mm, the longest length it can take */
  readonly longest: number;
  /**
   * `down`: leaves go in or they do not, so a feeler reading never exceeds the gap. `toward-zero`: the
   * same under a straightedge, which rests on whichever side stands higher; none is a reading too.
   */
  readonly rounding: 'nearest' | 'down' | 'toward-zero';
};

export const INSTRUMENTS: Readonly<Record<InstrumentId, Instrument>> = {
  rule: {
    id: 'rule',
    title: 'Steel rule',
    resolution: 0.5,
    uncertainty: 0.5,
    longest: 1000,
    rounding: 'nearest',
  },
  feeler: {
    id: 'feeler',
    title: 'Feeler leaves',
    resolution: 0.05,
    uncertainty: 0.05,
    longest: 25,
    rounding: 'down',
  },
  calliper: {
    id: 'calliper',
    title: 'Calliper',
    resolution: 0.05,
    uncertainty: 0.05,
    longest: 150,
    rounding: 'nearest',
  },
  square: {
    id: 'square',
    title: 'Square and rule',
    resolution: 0.5,
    uncertainty: 0.5,
    longest: 600,
    rounding: 'nearest',
  },
  straightedge: {
    id: 'straightedge',
    title: 'Straightedge and leaves',
    resolution: 0.05,
    uncertainty: 0.05,
    longest: 20,
    rounding: 'toward-zero',
  },
  dial: {
    id: 'dial',
    title: 'Dial gauge',
    resolution: 0.01,
    uncertainty: 0.02,
    longest: 10,
    rounding: 'nearest',
  },
};

export const INSTRUMENT_IDS = Object.keys(INSTRUMENTS) as readonly InstrumentId[];

const ROUND = {
  // the last bit of a binary fraction must not cost a whole step
  down: (steps: number) => Math.floor(steps + 1e-9),
  'toward-zero': (steps: number) => Math.trunc(steps + Math.sign(steps) * 1e-9),
  nearest: Math.round,
} as const;

/**
 * What the instrument shows for a true length.
 * @param length mm. Negative lengths (past the other edge) read as such on a rule.
 * @returns mm to the instrument's resolution, or null when it cannot take this length
 */
export function readInstrument(instrument: Instrument, length: number): number | null {
  if (Math.abs(length) > instrument.longest) return null;
  if (instrument.rounding === 'down' && length < instrument.resolution) return null;
  const whole = ROUND[instrument.rounding](length / instrument.resolution);
  const reading = Number((whole * instrument.resolution).toFixed(3));
  return reading === 0 ? 0 : reading;
}

/**
 * Whether what somebody read off the scale agrees with what it shows, within the tool's uncertainty.
 * @param read mm; null says that the tool cannot take the length
 */
export function agreesWith(
  shown: number | null,
  read: number | null,
  { uncertainty }: Pick<Instrument, 'uncertainty'>,
): boolean {
  if (shown === null || read === null) return shown === read;
  return Math.abs(shown - read) <= uncertainty + 1e-6;
}

/** Leaves and spacers of one set, mm, thickest first: any twentieth up to 26 mm is put together from them. */
export const LEAVES = [10, 5, 5, 2, 2, 1, 0.5, 0.2, 0.2, 0.1, 0.05] as const;

/** The leaves that are as thick together as a reading, the thickest first. @param reading mm */
export function leavesFor(reading: number): number[] {
  let left = Math.round(Math.abs(reading) * 20);
  return LEAVES.filter((leaf) => {
    const steps = Math.round(leaf * 20);
    if (steps > left) return false;
    left -= steps;
    return true;
  });
}
