import { type Bench, describeProblem, type Measures, type Problem } from '../bench/index.ts';
import { compileCondition, type Test } from './condition.ts';
import type { Condition } from './condition-schema.ts';
import type { FailedEnds } from './failed-ends.ts';
import { type FaultEntryFile, FaultFileSchema, type FaultPart } from './fault-schema.ts';
import { repeatedId } from './fields.ts';
import { collectFailedEnds, judge, type Uncertainty } from './judge.ts';
import type { LimitSet } from './limit-set.ts';
import { makeSubjectList, type SubjectList } from './subject-list.ts';

/** A kind of fault, as a trainer describes it. */
export type Fault = Omit<FaultEntryFile, 'when'> & { readonly part: FaultPart };

/** A fault as read from a file, and its condition as written there. */
type Written = { readonly fault: Fault; readonly when: Condition };

type Entry = {
  readonly fault: Fault;
  readonly holds: Test;
  /** the condition where it asks for one word and no more, as nearly half do: compared without a call */
  readonly word: { readonly place: number; readonly is: string | boolean } | null;
};

export type FaultCatalogue = {
  /** each fault with its condition, to be tried on what `subjects` reads off a bench */
  readonly entries: readonly Entry[];
  readonly byId: ReadonlyMap<string, Fault>;
  readonly subjects: SubjectList;
};

export type ReadFaults =
  | { readonly ok: true; readonly entries: readonly Written[] }
  | { readonly ok: false; readonly error: Problem };

/** The faults of one parsed file, or the first problem with it. Never throws. */
export function readFaults(value: unknown): ReadFaults {
  const parsed = FaultFileSchema.safeParse(value);
  if (!parsed.success) return { ok: false, error: describeProblem(parsed.error, 'The fault file') };
  const { part, faults } = parsed.data;
  return {
    ok: true,
    entries: faults.map(({ when, ...rest }) => ({ fault: { ...rest, part }, when })),
  };
}

/**
 * Puts the files of a catalogue together, its conditions compiled once.
 * @throws RangeError when two files use the same id
 */
export function joinFaults(files: readonly (readonly Written[])[]): FaultCatalogue {
  const written = files.flat();
  const twice = repeatedId(written.map(({ fault }) => fault));
  if (twice !== undefined) throw new RangeError(`two fault files use the id ${twice}`);
  const subjects = makeSubjectList();
  const entries = written.map(({ fault, when }) => ({
    fault,
    holds: compileCondition(when, fault.critical ? 'must' : 'should', subjects.names),
    word: wordOf(when, subjects),
  }));
  return { entries, byId: new Map(entries.map(({ fault }) => [fault.id, fault])), subjects };
}

function wordOf(when: Condition, { placeOf }: SubjectList): Entry['word'] {
  const { of, is, ...more } = when;
  if (of === undefined || is === undefined || typeof is === 'number') return null;
  return Object.keys(more).length > 0 ? null : { place: placeOf(of), is };
}

/** Every fault of the catalogue that the state of the bench and the limits in force make true. */
export function findFaults(
  bench: Bench,
  measures: Measures,
  sets: readonly LimitSet[],
  catalogue: FaultCatalogue,
  uncertainty: Uncertainty = 0,
): Fault[] {
  const results = sets.flatMap((set) => judge(bench, measures, set, uncertainty));
  return deriveFaults(bench, measures, collectFailedEnds(results), catalogue);
}

/** The same, for when the limits have been judged already. */
export function deriveFaults(
  bench: Bench,
  measures: Measures,
  failed: FailedEnds,
  { entries, subjects }: FaultCatalogue,
): Fault[] {
  const list = subjects.read(bench, measures, failed);
  const found: Fault[] = [];
  for (const { fault, holds, word } of entries) {
    const isThere = word === null ? holds(list, measures, failed) : list[word.place] === word.is;
    if (isThere) found.push(fault);
  }
  return found;
}
