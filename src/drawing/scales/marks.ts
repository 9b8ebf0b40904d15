import { type LengthUnit, mmToInches } from '../../geometry/index.ts';

/**
 * Where a reading stands on a scale, in the divisions a reader counts. Millimetre scales: half
 * millimetres on a rule, twentieths by the vernier, hundredths on a dial. Inch scales: sixty-fourths on
 * a rule, thousandths by the vernier and on the dial. Common practice, no source.
 */

/** A line of a rule: past the last figure, so many whole lines and so many finest ones. */
export type LineMark = {
  readonly isMinus: boolean;
  /** the last figured line before the edge: mm, or whole inches */
  readonly figure: number;
  /** whole lines past it: millimetres, or sixteenths */
  readonly lines: number;
  /** the finest lines past those: half millimetres, or sixty-fourths */
  readonly fine: number;
};

export function ruleMark(mm: number, unit: LengthUnit): LineMark {
  const isMinus = mm < 0;
  if (unit === 'inch') {
    const steps = Math.round(Math.abs(mmToInches(mm)) * 64);
    const past = steps % 64;
    return { isMinus, figure: (steps - past) / 64, lines: Math.floor(past / 4), fine: past % 4 };
  }
  const steps = Math.round(Math.abs(mm) * 2);
  const past = steps % 20;
  return { isMinus, figure: (steps - past) / 2, lines: Math.floor(past / 2), fine: past % 2 };
}

/**
 * A vernier: its zero just past a line of the beam, and which of its own lines meets one.
 * Main lines: millimetres, or fortieths of an inch (0.025). The vernier: twentieths of a millimetre, or
 * thousandths. Reading rule: the beam's line before the zero, plus the meeting line times the step.
 */
export type VernierMark = {
  readonly isMinus: boolean;
  /** the last figured beam line before the zero: mm in tens, or tenths of an inch */
  readonly figure: number;
  /** beam lines past it */
  readonly lines: number;
  /** which line of the vernier meets a line of the beam, 0 its zero */
  readonly meets: number;
};

export function vernierMark(mm: number, unit: LengthUnit): VernierMark {
  const isMinus = mm < 0;
  const [steps, perLine, perFigure] =
    unit === 'inch'
      ? [Math.round(Math.abs(mmToInches(mm)) * 1000), 25, 4]
      : [Math.round(Math.abs(mm) * 20), 20, 10];
  const meets = steps % perLine;
  const whole = (steps - meets) / perLine;
  const lines = whole % perFigure;
  // on an inch beam the figures are tenths
  return { isMinus, figure: unit === 'inch' ? (whole - lines) / 4 : whole - lines, lines, meets };
}

/** A dial: whole turns by the small hand, and the mark of a hundred the long hand stands at. */
export type DialMark = { readonly turns: number; readonly mark: number };

/** One turn is a millimetre, or a tenth of an inch; backward from nought counts down from a hundred. */
export function dialMark(mm: number, unit: LengthUnit): DialMark {
  const steps = Math.round(unit === 'inch' ? mmToInches(mm) * 1000 : mm * 100);
  const turns = Math.floor(steps / 100);
  return { turns, mark: steps - turns * 100 };
}
