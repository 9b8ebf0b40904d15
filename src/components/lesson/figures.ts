import {
  type Bench,
  isMeasureId,
  MEASURES,
  type Measures,
  measureBench,
} from '../../bench/index.ts';
import { BENCH_SCOPE } from '../../limits/index.ts';
import { workOut } from './figure-sum.ts';
import { isPlain, type LessonFigure } from './figure-units.ts';
import { isWorking, WORKINGS } from './workings-figures.ts';

export type { LessonFigure } from './figure-units.ts';

/** Units of bench fields that are no measure themselves; any other number in a bench file is a length. */
const FIELD_UNITS: Readonly<Record<string, LessonFigure['unit']>> = {
  'blade.teeth': 'count',
  'blade.hookAngle': 'deg',
  'blade.maxSpeed': 'rpm',
  'arbor.speed': 'rpm',
  'arbor.tilt': 'deg',
  'job.fed': 'm/min',
  'job.stock.moisture': '%',
};

/** Fields that are numbers but neither lengths nor listed above have no place in a sentence. */
const NO_LENGTH = /^(people|place|controls)\.|\.density$|\.condition\./;

/** The named field of a bench file, or undefined. */
function readPath(bench: Bench, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (inner, key) =>
        typeof inner === 'object' && inner !== null
          ? (inner as Record<string, unknown>)[key]
          : undefined,
      bench,
    );
}

function findOne(bench: Bench, id: string, measures: Measures): LessonFigure {
  if (isWorking(id)) {
    const { unit, of } = WORKINGS[id];
    const value = of(bench);
    if (value !== null && Number.isFinite(value)) return { value, unit };
    throw new Error(`The figure ${id} has no number on this bench.`);
  }
  if (isMeasureId(id)) {
    const value = measures[id];
    if (typeof value === 'number') return { value, unit: MEASURES[id].unit };
    throw new Error(`The figure ${id} has no number on this bench.`);
  }
  const value = BENCH_SCOPE.find(id)?.kind === 'number' ? readPath(bench, id) : undefined;
  if (typeof value === 'number' && !NO_LENGTH.test(id)) {
    return { value, unit: FIELD_UNITS[id] ?? 'mm' };
  }
  throw new Error(`There is no figure named ${id} on this bench.`);
}

/**
 * A measure (`knife.gapMax`), a field (`blade.kerf`), a working (`blade.energy`) or a sum of them
 * (`blade.kerf - knife.thickness`) as a number with its unit.
 * @throws when the bench has no such number: a lesson that names it is broken, and says where
 */
export const findFigure = (
  bench: Bench,
  of: string,
  measures: Measures = measureBench(bench),
): LessonFigure => workOut(of, (id) => findOne(bench, id, measures));

/** How a unit is written after its number. */
const WRITTEN: Partial<Record<LessonFigure['unit'], string>> = {
  deg: '°',
  '%': ' %',
  'N m': ' N·m',
  'mg/m3': ' mg/m³',
};

/** A figure that is no length, in words: `62.8 m/s`, `8 s`, `36`. */
export function sayFigure({ value, unit }: LessonFigure, digits = 1): string {
  const rounded = Number(value.toFixed(digits));
  if (isPlain(unit)) return String(rounded);
  return `${rounded}${WRITTEN[unit] ?? ` ${unit}`}`;
}
