import { isMeasureId, type MeasureId, type Measures } from '../bench/index.ts';
import type { Names } from './condition.ts';
import type { FailedEnds } from './failed-ends.ts';

/**
 * The subjects a whole catalogue speaks of, each with its place in a list. They are read off a bench
 * once, part by part, and a hundred conditions then compare what was read.
 */
export type SubjectList = {
  /** where in what `read` gives a subject stands */
  readonly placeOf: (name: string) => number;
  /** readers of a subject from what `read` gave */
  readonly names: Names;
  /** the value of every subject named so far, null where there is none, and its failed ends as bits */
  readonly read: (bench: unknown, measures: Measures, failed: FailedEnds) => readonly unknown[];
};

/** One field on the way down a bench: its own place, if it is a subject, and the fields within it. */
type Branch = { readonly key: string; place: number | null; readonly within: Branch[] };
type Group = Readonly<Record<string, unknown>>;

export function makeSubjectList(): SubjectList {
  let size = 0;
  const places = new Map<string, number>();
  const failing = new Map<string, number>();
  const measured: { readonly id: MeasureId; readonly place: number }[] = [];
  const trunk: Branch[] = [];

  function placeOf(name: string): number {
    const known = places.get(name);
    if (known !== undefined) return known;
    const place = size++;
    places.set(name, place);
    if (isMeasureId(name)) measured.push({ id: name, place });
    else addBranch(trunk, name.split('.'), place);
    return place;
  }

  return {
    placeOf,
    names: {
      value: (name) => {
        const place = placeOf(name);
        return (list) => (list as readonly unknown[])[place];
      },
      failed: (name) => {
        const place = failing.get(name) ?? size++;
        failing.set(name, place);
        return (list) => (list as readonly number[])[place] ?? 0;
      },
    },
    read: (bench, measures, failed) => {
      const list: unknown[] = new Array(size).fill(null);
      for (const [name, bits] of failed) {
        const place = failing.get(name);
        if (place !== undefined) list[place] = bits;
      }
      for (const { id, place } of measured) list[place] = measures[id];
      readBranches(list, bench as Group, trunk);
      return list;
    },
  };
}

function addBranch(branches: Branch[], [key = '', ...rest]: string[], place: number): void {
  let branch = branches.find((one) => one.key === key);
  if (branch === undefined) {
    branch = { key, place: null, within: [] };
    branches.push(branch);
  }
  if (rest.length === 0) branch.place = place;
  else addBranch(branch.within, rest, place);
}

function readBranches(list: unknown[], group: Group, branches: readonly Branch[]): void {
  for (const { key, place, within } of branches) {
    const value = group[key];
    if (value === undefined || value === null) continue;
    if (place !== null) list[place] = value;
    if (within.length > 0) readBranches(list, value as Group, within);
  }
}
