import { ALWAYS, compileCondition } from './condition.ts';
import { type End, endFor, type Limit, type Wanted } from './limit.ts';
import type { LimitEndFile, LimitFile } from './limit-schema.ts';
import { unitScale } from './published-unit.ts';
import { type Reader, readField, readSubject } from './read-subject.ts';

/*
 * From what is written in a limit set to what judges a bench. No schema library in here: a browser compiles
 * the set again that it was handed as plain data.
 */

/** When a limit is in force, and how its value is read. */
export const compileReaders = ({
  when,
  measure,
  wanted,
}: Pick<Limit, 'when' | 'measure' | 'wanted'>): Pick<Limit, 'inForce' | 'read'> => ({
  inForce: when === null ? ALWAYS : compileCondition(when),
  read: wanted.kind === 'fitted' ? readFitted(measure) : readSubject(measure),
});

function readFitted(path: string): Reader {
  const read = readField(path);
  return (root, measures) => read(root, measures) !== null;
}

export function compileWanted(limit: LimitFile): Wanted {
  if (limit.fitted !== undefined) return { kind: 'fitted', fitted: limit.fitted };
  if (limit.is !== undefined) return { kind: 'word', allowed: [limit.is] };
  if (limit.oneOf !== undefined) return { kind: 'word', allowed: limit.oneOf };
  const scale = unitScale(limit.unit);
  return {
    kind: 'size',
    min: limit.min === undefined ? null : compileEnd(limit.min, scale),
    minInclusive: limit.minInclusive,
    max: limit.max === undefined ? null : compileEnd(limit.max, scale),
    maxInclusive: limit.maxInclusive,
  };
}

/** @param scale from the published unit to that of the measure; bench fields are in the latter */
export function compileEnd(end: LimitEndFile, scale: number): End {
  if (typeof end === 'number') return end * scale;
  if (typeof end === 'string') {
    const read = readSubject(end);
    return (root, measures) => {
      const value = read(root, measures);
      return typeof value === 'number' ? value : null;
    };
  }
  const smaller = 'smallerOf' in end;
  const figures = (smaller ? end.smallerOf : end.largerOf).map((one) => compileEnd(one, scale));
  const pick = smaller ? Math.min : Math.max;
  return (root, measures) =>
    figures.reduce<number | null>((best, figure) => {
      const value = endFor(figure, root, measures);
      if (best === null || value === null) return best ?? value;
      return pick(best, value);
    }, null);
}
