import {
  type Bench,
  dailyExposure,
  exposurePoints,
  hoursUntil,
  noiseDose,
  permittedHours,
  timeWeightedAverage,
} from '../../bench/index.ts';
import type { PlotRequest } from '../../drawing/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

export type NoiseDay = {
  readonly stretches: readonly {
    readonly level: number;
    readonly hours: number;
    readonly points: number;
    /** h at this level alone to the upper action value of 85 dB(A) */
    readonly until: number;
  }[];
  readonly exposure: number;
  readonly points: number;
  /** per cent, and dB(A) */
  readonly dose: number;
  readonly average: number;
  /** stretches the US dose counts although they are under 80 dB(A) */
  readonly quietCounted: boolean;
};

/** Hours at levels, summed as the UK and the US sum them. Null where none was entered. */
export function noiseDayOf({ exposure }: Bench): NoiseDay | null {
  const day = exposure?.noise;
  if (day === undefined) return null;
  const dose = noiseDose(day);
  const loud = day.filter(({ level }) => level >= 80);
  return {
    stretches: day.map((stretch) => ({
      ...stretch,
      points: exposurePoints([stretch]),
      until: hoursUntil(stretch.level, 85),
    })),
    exposure: dailyExposure(day),
    points: exposurePoints(day),
    dose,
    average: timeWeightedAverage(dose),
    quietCounted: dose > noiseDose(loud) + 1e-9,
  };
}

/** h at a bench a day: as long as anybody works. */
const LONGEST_AT_BENCH = 10;
const HOUR_STEPS = 40;

/**
 * Exposure of a day against the hours at the bench, at the loudest level of the bench's day, the rest of
 * it quiet. Null where the bench has no noise entered.
 */
export function plotNoiseDay({ exposure }: Bench, say: Speaker = sayIn('en')): PlotRequest | null {
  const [loudest] = (exposure?.noise ?? []).toSorted((a, b) => b.level - a.level);
  if (loudest === undefined) return null;
  const { level, hours } = loudest;
  const at = (time: number) => ({ x: time, y: dailyExposure([{ level, hours: time }]) });
  return {
    title: say('workings.plot.day.title'),
    description: say('workings.plot.day.about'),
    x: { title: say('workings.plot.day.hours'), unit: '', reaches: [0] },
    y: { title: say('workings.plot.day'), unit: 'dB(A)' },
    curves: [
      {
        label: '',
        points: Array.from({ length: HOUR_STEPS }, (_, i) =>
          at((LONGEST_AT_BENCH * (i + 1)) / HOUR_STEPS),
        ),
      },
    ],
    marks: [
      {
        ...at(hours),
        label: say('workings.plot.now', { value: say.figures(`${at(hours).y.toFixed(1)} dB(A)`) }),
      },
    ],
  };
}

const LEVELS = Array.from({ length: 81 }, (_, i) => 85 + i / 4);
/** A working day, h: no curve needs to go higher. */
const LONGEST_DAY = 8;

/** How long a level may last: halved at every 3 dB in the UK, at every 5 dB in the US. */
export function plotHours(say: Speaker = sayIn('en')): PlotRequest {
  const curve = (label: string, hours: (level: number) => number) => ({
    label,
    points: LEVELS.map((x) => ({ x, y: hours(x) })).filter(({ y }) => y <= LONGEST_DAY + 1e-9),
  });
  return {
    title: say('workings.plot.hours.title'),
    description: say('workings.plot.hours.about'),
    x: { title: say('workings.plot.hours.level'), unit: 'dB(A)' },
    y: { title: say('workings.plot.hours'), unit: '', reaches: [0] },
    curves: [
      curve(say('workings.plot.hours.uk'), (level) => hoursUntil(level, 85)),
      curve(say('workings.plot.hours.us'), permittedHours),
    ],
  };
}
