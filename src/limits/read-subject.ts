import { isMeasureId, type Measures } from '../bench/index.ts';

/*
 * Apart from the naming of subjects, which needs the schema of the bench: a browser judges with this alone.
 */

/**
 * Reads a subject's value from its root (the bench, or one item of a list); null when there is
 * none, as for a field of a part taken off.
 */
export type Reader = (root: unknown, measures: Measures) => unknown;

type Group = Readonly<Record<string, unknown>>;

/** One step down a path; null once there is nothing further. */
const step = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null ? ((value as Group)[key] ?? null) : null;

/**
 * A reader of a field of the root by its path. Most paths have up to three steps, and those are
 * written out: every limit is read for every bench.
 */
export function readField(path: string): Reader {
  const keys = path.split('.');
  const [first = '', second, third, ...rest] = keys;
  if (second === undefined) return (root) => step(root, first);
  if (third === undefined) return (root) => step(step(root, first), second);
  if (rest.length === 0) return (root) => step(step(step(root, first), second), third);
  return (root) => keys.reduce(step, root);
}

/** A reader of a measure, or of a field of the bench when no measure has that name. */
export function readSubject(name: string): Reader {
  if (isMeasureId(name)) return (_bench, measures) => measures[name];
  return readField(name);
}
