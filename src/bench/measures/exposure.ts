import { dailyExposure, noiseDose } from '../mechanics/noise.ts';
import type { Bench } from '../schema/index.ts';

/** What a day at the bench does to ears and lungs, in the units of the catalogue. */
export type ExposureMeasures = {
  readonly noise: number | null;
  readonly atEar: number | null;
  readonly peak: number | null;
  readonly dose: number | null;
  readonly dust: number | null;
  readonly respirable: number | null;
};

const NOT_MEASURED: ExposureMeasures = {
  noise: null,
  atEar: null,
  peak: null,
  dose: null,
  dust: null,
  respirable: null,
};

/** Every figure is null where it was not measured; protection not told takes nothing off. */
export function measureExposure({ exposure }: Bench): ExposureMeasures {
  if (exposure === undefined) return NOT_MEASURED;
  const { noise, peak, protection = 0, dust } = exposure;
  const daily = noise === undefined ? null : dailyExposure(noise);
  return {
    noise: daily,
    atEar: daily === null ? null : daily - protection,
    peak: peak ?? null,
    dose: noise === undefined ? null : noiseDose(noise),
    dust: dust?.level ?? null,
    respirable: dust?.respirable ?? null,
  };
}
