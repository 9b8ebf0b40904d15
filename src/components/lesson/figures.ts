import {
  type Bench,
  isMeasureId,
  MEASURES,
  type Measures,
  type MeasureUnit,
  measureBench,
} from '../../bench/index.ts';
import { BENCH_SCOPE } from '../../limits/index.ts';

/** A number a lesson shows, taken from its bench and never typed. */
export type LessonFigure = {
  readonly value: number;
  readonly unit: MeasureUnit | 'rpm' | 'm/min' | '%';
};

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

/**
 * A measure (`knife.gapMax`) or a field (`blade.kerf`) of the bench as a number with its unit.
 * @throws when the bench has no such number: a lesson that names it is broken, and says where
 */
export function findFigure(
  bench: Bench,
  id: string,
  measures: Measures = measureBench(bench),
): LessonFigure {
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

/** A figure that is no length, in words: `62.8 m/s`, `8 s`, `36`. */
export function sayFigure({ value, unit }: LessonFigure, digits = 1): string {
  const rounded = Number(value.toFixed(digits));
  const names: Partial<Record<LessonFigure['unit'], string>> = { deg: '°', '%': ' %' };
  if (unit === 'count' || unit === '1') return String(rounded);
  return `${rounded}${names[unit] ?? ` ${unit}`}`;
}
