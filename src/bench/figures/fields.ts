import type { Bench } from '../schema/index.ts';
import type { Figure, FigureUnit } from './figure.ts';

/** Units of the fields of a bench file that are numbers and no lengths; any other number is mm. */
const UNITS: Readonly<Record<string, FigureUnit>> = {
  'blade.teeth': 'count',
  'blade.hookAngle': 'deg',
  'blade.maxSpeed': 'rpm',
  'arbor.speed': 'rpm',
  'arbor.tilt': 'deg',
  'arbor.runDown': 's',
  'arbor.runUp': 's',
  'arbor.motorPower': 'W',
  'job.fed': 'm/min',
  'job.stock.moisture': '%',
  'job.stock.density': 'kg/m3',
  'people.operator.age': 'years',
  'people.takeOff.age': 'years',
  'place.light': 'lx',
  'place.lightAround': 'lx',
  'place.uniformity': '1',
  'place.uniformityAround': '1',
  'exposure.peak': 'dB(C)',
  'exposure.protection': 'dB',
  'exposure.dust.level': 'mg/m3',
  'exposure.dust.respirable': 'mg/m3',
};

/** Lists hold what was seen, crack by crack and stretch by stretch; a sentence has no place for one of many. */
const LISTED = /^(blade\.condition|exposure\.noise)\./;

/** The named field of a bench file; undefined when there is none. */
function readPath(bench: Bench, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (inner, key) =>
        typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
          ? (inner as Record<string, unknown>)[key]
          : undefined,
      bench,
    );
}

/** A field of the bench file that is a number, `blade.kerf`, with its unit; null for anything else. */
export function findField(bench: Bench, path: string): Figure | null {
  const value = readPath(bench, path);
  if (typeof value !== 'number' || LISTED.test(path)) return null;
  return { value, unit: UNITS[path] ?? 'mm' };
}
