import { SETTINGS, type SettingId } from '../../../bench/index.ts';
import { type LengthUnit, MM_PER_INCH } from '../../../geometry/index.ts';

/** A nudge and a push, mm. In inches they are fractions a shop rule shows. */
export type Steps = { readonly fine: number; readonly coarse: number };

const IN_MM: Readonly<Record<number, Steps>> = {
  0.5: { fine: 0.5, coarse: 5 },
  1: { fine: 1, coarse: 10 },
  5: { fine: 5, coarse: 50 },
};
const IN_INCHES: Readonly<Record<number, Steps>> = {
  0.5: { fine: MM_PER_INCH / 64, coarse: MM_PER_INCH / 8 },
  1: { fine: MM_PER_INCH / 32, coarse: MM_PER_INCH / 4 },
  5: { fine: MM_PER_INCH / 8, coarse: MM_PER_INCH * 2 },
};

export function stepsOf(setting: SettingId, unit: LengthUnit): Steps {
  const { step } = SETTINGS[setting];
  const steps = unit === 'inch' ? IN_INCHES : IN_MM;
  return steps[step] ?? { fine: step, coarse: step * 10 };
}
