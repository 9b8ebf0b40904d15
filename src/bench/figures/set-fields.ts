import type { Bench } from '../schema/index.ts';
import { readBench } from '../schema/index.ts';

type Group = Readonly<Record<string, unknown>>;
type Plain = number | string | boolean | null;

function setPath(group: Group, [key = '', ...rest]: readonly string[], value: Plain): Group | null {
  if (rest.length === 0) return { ...group, [key]: value };
  const inner = group[key];
  if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return null;
  const set = setPath(inner as Group, rest, value);
  return set && { ...group, [key]: set };
}

/**
 * The bench with some fields set, `{ 'job.fed': 12 }`.
 * @throws Error in one sentence when there is no such field, or no bench comes of it
 */
export function setFields(bench: Bench, change: Readonly<Record<string, Plain>>): Bench {
  let changed: Group = bench;
  for (const [path, value] of Object.entries(change)) {
    const next = setPath(changed, path.split('.'), value);
    if (next === null) throw new Error(`There is no field named ${path} on this bench.`);
    changed = next;
  }
  const read = readBench(changed);
  if (!read.ok) throw new Error(`The bench cannot be changed so: ${read.error.message}`);
  return read.bench;
}
