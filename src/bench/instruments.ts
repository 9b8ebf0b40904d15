/**
 * What lies at a practice bench to measure with. Resolution and uncertainty are common practice with
 * no published source: a half-millimetre steel rule read by eye, feeler leaves in a stack, a vernier
 * calliper to a twentieth, an engineer's square held to the part.
 */
export type InstrumentId = 'rule' | 'feeler' | 'calliper' | 'square';
/** With a dial gauge on a stand, which is fetched when a setting has to be known better. */
export type AnyInstrumentId = InstrumentId | 'dial';

export type Instrument = {
  readonly id: AnyInstrumentId;
  readonly title: string;
  /** mm, the smallest step it can show */
  readonly resolution: number;
  /** mm, U: the true value lies within this of the reading */
  readonly uncertainty: number;
  /** mm, the longest length it can take */
  readonly longest: number;
  /** leaves go in or they do not, so a feeler reading never exceeds the gap */
  readonly rounding: 'nearest' | 'down';
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
};

export const INSTRUMENT_IDS = Object.keys(INSTRUMENTS) as readonly InstrumentId[];

/** Every instrument there is, the dial gauge too: to a hundredth, known to two (common practice, no source). */
export const ALL_INSTRUMENTS: Readonly<Record<AnyInstrumentId, Instrument>> = {
  ...INSTRUMENTS,
  dial: {
    id: 'dial',
    title: 'Dial gauge',
    resolution: 0.01,
    uncertainty: 0.02,
    longest: 10,
    rounding: 'nearest',
  },
};

export const ALL_INSTRUMENT_IDS = Object.keys(ALL_INSTRUMENTS) as readonly AnyInstrumentId[];

/**
 * What the instrument shows for a true length.
 * @param length mm. Negative lengths (past the other edge) read as such on a rule.
 * @returns mm to the instrument's resolution, or null when it cannot take this length
 */
export function readInstrument(instrument: Instrument, length: number): number | null {
  if (Math.abs(length) > instrument.longest) return null;
  if (instrument.rounding === 'down' && length < instrument.resolution) return null;
  const steps = length / instrument.resolution;
  // the last bit of a binary fraction must not cost a whole step
  const whole = instrument.rounding === 'down' ? Math.floor(steps + 1e-9) : Math.round(steps);
  const reading = Number((whole * instrument.resolution).toFixed(3));
  return reading === 0 ? 0 : reading;
}
