/** A stretch of a working day at one level. */
export type Stretch = {
  /** dB(A) */
  readonly level: number;
  readonly hours: number;
};

/** dB of several sources sounding together. */
export const addLevels = (levels: readonly number[]): number =>
  10 * Math.log10(levels.reduce((sum, level) => sum + 10 ** (level / 10), 0));

/** dB(A), daily personal exposure over an 8 h day: 10 log10(1/8 sum T 10^(L/10)) (ISO 9612). */
export const dailyExposure = (day: readonly Stretch[]): number =>
  10 * Math.log10(day.reduce((sum, { level, hours }) => sum + hours * 10 ** (level / 10), 0) / 8);

/** Exposure points, 100 at 85 dB(A) for 8 h (HSE ready reckoner). Points of a day add up. */
export const exposurePoints = (day: readonly Stretch[]): number =>
  day.reduce((sum, { level, hours }) => sum + 100 * (hours / 8) * 10 ** ((level - 85) / 10), 0);

/** h allowed at a level under 29 CFR 1910.95 table G-16a: 8 / 2^((L - 90)/5). */
export const permittedHours = (level: number): number => 8 / 2 ** ((level - 90) / 5);

/** Per cent of the daily dose under 29 CFR 1910.95: 100 sum C/T. */
export const noiseDose = (day: readonly Stretch[]): number =>
  100 * day.reduce((sum, { level, hours }) => sum + hours / permittedHours(level), 0);

/** dB(A), the 8 h time-weighted average that gives a dose: 16.61 log10(D/100) + 90. */
export const timeWeightedAverage = (dose: number): number => 16.61 * Math.log10(dose / 100) + 90;

/** h at one level until the daily exposure reaches `action`. */
export const hoursUntil = (level: number, action: number): number =>
  8 * 10 ** ((action - level) / 10);
