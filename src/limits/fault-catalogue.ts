import { type Bench, describeProblem, type Measures, type Problem } from '../bench/index.ts';
import { compileCondition, type Test } from './condition.ts';
import type { FailedEnds } from './failed-ends.ts';
import { type FaultEntryFile, FaultFileSchema, type FaultPart } from './fault-schema.ts';
import { collectFailedEnds, judge, type Uncertainty } from './judge.ts';
import type { LimitSet } from './limit-set.ts';

/** A kind of fault, as a trainer describes it. */
export type Fault = Omit<FaultEntryFile, 'when'> & { readonly part: FaultPart };

type Entry = { readonly fault: Fault; readonly holds: Test };

export type FaultCatalogue = {
  readonly entries: readonly Entry[];
  readonly byId: ReadonlyMap<string, Fault>;
};

export type ReadFaults =
  | { readonly ok: true; readonly entries: readonly Entry[] }
  | { readonly ok: false; readonly error: Problem };

/** The faults of one parsed file, compiled once, or the first problem with it. Never throws. */
export function readFaults(value: unknown): ReadFaults {
  const parsed = FaultFileSchema.safeParse(value);
  if (!parsed.success) return { ok: false, error: describeProblem(parsed.error, 'The fault file') };
  const { part, faults } = parsed.data;
  return { ok: true, entries: faults.map((fault) => compileFault(fault, part)) };
}

function compileFault({ when, ...rest }: FaultEntryFile, part: FaultPart): Entry {
  return {
    fault: { ...rest, part },
    holds: compileCondition(when, rest.critical ? 'must' : 'should'),
  };
}

/**
 * Puts the files of a catalogue together.
 * @throws RangeError when two files use the same id
 */
export function joinFaults(files: readonly (readonly Entry[])[]): FaultCatalogue {
  const entries = files.flat();
  const byId = new Map(entries.map(({ fault }) => [fault.id, fault]));
  if (byId.size < entries.length) {
    const ids = entries.map(({ fault }) => fault.id);
    const twice = ids.find((id, i) => ids.indexOf(id) !== i);
    throw new RangeError(`two fault files use the id ${twice}`);
  }
  return { entries, byId };
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
  catalogue: FaultCatalogue,
): Fault[] {
  const found: Fault[] = [];
  for (const { fault, holds } of catalogue.entries) {
    if (holds(bench, measures, failed)) found.push(fault);
  }
  return found;
}
