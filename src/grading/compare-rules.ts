import { type Bench, measureBench } from '../bench/index.ts';
import type { Fault, FaultCatalogue, LimitSet, Result, Uncertainty } from '../limits/index.ts';
import { type BenchGrade, gradeBench, stopsWork } from './grade-bench.ts';
import { type Topic, topicOf } from './topic.ts';

/** What one set says of one topic; `silent` when it has no figure that applies to this bench. */
export type Stand = 'within' | 'outside' | 'too-close' | 'advice' | 'silent';

export type RuleCell = {
  readonly set: string;
  readonly stand: Stand;
  /** one of its results alone keeps the bench from running */
  readonly stops: boolean;
  /** its results on this topic that apply here, the gravest first */
  readonly results: readonly Result[];
};

/**
 * `flips`: sets that decide it come to different verdicts. `one-sided`: some refuse the bench over
 * it and others say nothing. `same`: whoever decides it agrees.
 */
export type Agreement = 'flips' | 'one-sided' | 'same';

export type RuleRow = {
  readonly topic: Topic;
  readonly agreement: Agreement;
  /** one for each set, in the order of the sets */
  readonly cells: readonly RuleCell[];
};

export type RuleComparison = {
  readonly grades: readonly { readonly set: LimitSet; readonly grade: BenchGrade }[];
  /** topics of which at least one set says something of this bench, in the order of the sets */
  readonly rows: readonly RuleRow[];
  /** faults found under some of the sets and not under others */
  readonly faults: readonly { readonly fault: Fault; readonly under: readonly string[] }[];
};

/** The same bench under each set by itself, and where they part. Pure. */
export function compareRules({
  bench,
  sets,
  catalogue,
  uncertainty = 0,
}: {
  readonly bench: Bench;
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
  readonly uncertainty?: Uncertainty;
}): RuleComparison {
  const measures = measureBench(bench);
  const grades = sets.map((set) => ({
    set,
    grade: gradeBench({ bench, sets: [set], catalogue, uncertainty, measures }),
  }));
  const topics = new Map<string, Topic>();
  const spoken = grades.map(({ set, grade }) => {
    const byTopic = new Map<string, Result[]>();
    for (const result of grade.results) {
      if (result.verdict === 'not-applicable') continue;
      const topic = topicOf(result);
      if (!topics.has(topic.id)) topics.set(topic.id, topic);
      byTopic.set(topic.id, [...(byTopic.get(topic.id) ?? []), result]);
    }
    return { set: set.id, byTopic };
  });
  const rows = [...topics.values()].map((topic): RuleRow => {
    const cells = spoken.map(({ set, byTopic }) => makeCell(set, byTopic.get(topic.id) ?? []));
    return { topic, agreement: agreementOf(cells), cells };
  });
  return { grades, rows, faults: partedFaults(grades) };
}

const GRAVITY: readonly Result['verdict'][] = [
  'outside',
  'too-close',
  'within',
  'advice',
  'not-applicable',
];
const gravityOf = (result: Result): number =>
  2 * GRAVITY.indexOf(result.verdict) - (stopsWork(result) ? 1 : 0);

function makeCell(set: string, results: readonly Result[]): RuleCell {
  const ordered = [...results].sort((a, b) => gravityOf(a) - gravityOf(b));
  const verdict = ordered[0]?.verdict ?? 'not-applicable';
  return {
    set,
    stand: verdict === 'not-applicable' ? 'silent' : verdict,
    stops: ordered.some(stopsWork),
    results: ordered,
  };
}

function agreementOf(cells: readonly RuleCell[]): Agreement {
  const stands = new Set(cells.map(({ stand }) => stand));
  const decided = (['within', 'outside', 'too-close'] as const).filter((one) => stands.has(one));
  if (decided.length > 1) return 'flips';
  const refused = stands.has('outside') || stands.has('too-close');
  return refused && stands.size > 1 ? 'one-sided' : 'same';
}

function partedFaults(grades: RuleComparison['grades']): RuleComparison['faults'] {
  const found = new Map<string, { fault: Fault; under: string[] }>();
  for (const { set, grade } of grades) {
    for (const fault of grade.faults) {
      const entry = found.get(fault.id) ?? { fault, under: [] };
      entry.under.push(set.id);
      found.set(fault.id, entry);
    }
  }
  return [...found.values()].filter(({ under }) => under.length < grades.length);
}
