import type { Bench, Measures } from '../../bench/index.ts';
import { judgeLimit, type Limit, type LimitSet, type Result } from '../../limits/index.ts';

/** A limit with what it says of the lesson's bench. */
export type Ruled = { readonly limit: Limit; readonly result: Result };

/** One thing the rules speak of: what the chosen set asks, and what the others ask instead. */
export type RuleRow = {
  readonly own: readonly Ruled[];
  readonly others: readonly { readonly set: LimitSet; readonly rules: readonly Ruled[] }[];
};

/** Measures that answer one question in different ways stand in one row. */
const TOPICS: Readonly<Record<string, string>> = {
  'knife.gapAtTable': 'knife gap',
  'knife.gapMin': 'knife gap',
  'knife.gapMax': 'knife gap',
};
const topicOf = (measure: string): string => TOPICS[measure] ?? measure;

type Measured = { readonly bench: Bench; readonly measures: Measures };

/** The limits of a set about some measures that are in force on the bench, with what they say of it. */
const rulesInForce = (
  set: LimitSet,
  isAbout: (measure: string) => boolean,
  { bench, measures }: Measured,
): Ruled[] =>
  set.limits
    .filter(({ measure }) => isAbout(measure))
    .map((limit) => ({ limit, result: judgeLimit(limit, bench, measures) }))
    .filter(({ result }) => result.verdict !== 'not-applicable');

/**
 * The rows of "what the rules say here" for one set, in the order of `measures`. A topic that this
 * set leaves open but another decides is kept, with no limit of its own.
 */
export function ruleRows(
  chosen: LimitSet,
  all: readonly LimitSet[],
  measures: readonly string[],
  subject: Measured,
): RuleRow[] {
  const topics = [...new Set(measures.map(topicOf))];
  const rulesOf = (set: LimitSet, topic: string): Ruled[] =>
    rulesInForce(set, (measure) => topicOf(measure) === topic, subject);
  return topics
    .map((topic) => ({
      own: rulesOf(chosen, topic),
      others: all
        .filter((set) => set.id !== chosen.id)
        .map((set) => ({ set, rules: rulesOf(set, topic) }))
        .filter(({ rules }) => rules.length > 0),
    }))
    .filter(({ own, others }) => own.length > 0 || others.length > 0);
}

/** One line of the sheet for the wall: a measure and what the set asks of it, perhaps nothing. */
export type JobAidRow = { readonly measure: string; readonly rules: readonly Ruled[] };

/** Every measure of a job aid with the limits of one set, measures without a limit included. */
export function jobAidRows(
  set: LimitSet,
  measures: readonly string[],
  subject: Measured,
): JobAidRow[] {
  return measures.map((measure) => ({
    measure,
    rules: rulesInForce(set, (about) => about === measure, subject),
  }));
}
