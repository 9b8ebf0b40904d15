import type { Site } from '../accounts/index.ts';
import type { TestSitting } from '../assessment/index.ts';
import { type AttemptRecord, newestAtTask } from './read-attempts.ts';
import type { SaidGrade } from './say-grade.ts';

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** What a bench task asks for, each part as a score: what was named, how the settings stand, what was read. */
function partsOf({
  found,
  missed,
  wrong,
  settings,
  readings,
  choice,
  predictions,
  cut,
}: SaidGrade): TestSitting['parts'] {
  const parts: Record<string, { score: number; weight: number }> = {};
  const part = (id: string, score: number) => {
    parts[id] = { score, weight: 1 };
  };
  const present = found.length + missed.length;
  if (present + wrong.length > 0) {
    part('find', present === 0 ? 0 : (100 * found.length) / present);
  }
  const scored = settings.flatMap(({ score }) => (score === null ? [] : [score]));
  if (scored.length > 0) part('set', meanOf(scored));
  if (readings.length > 0) {
    part('read', (100 * readings.filter(({ taken }) => taken !== null).length) / readings.length);
  }
  if (choice !== null) part('choose', choice.score);
  if (predictions.length > 0) {
    part('predict', (100 * predictions.filter(({ right }) => right).length) / predictions.length);
  }
  if (cut !== null) part('cut', cut.score);
  return parts;
}

function fromAttempt(record: AttemptRecord, form: string): TestSitting | null {
  const { grade, person } = record;
  if (grade === null) return null;
  return {
    person,
    form,
    score: grade.score,
    parts: partsOf(grade),
    faults: Object.fromEntries([
      ...grade.missed.map(({ fault }) => [fault, false] as const),
      ...grade.found.map(({ fault }) => [fault, true] as const),
    ]),
    thought: { faults: {}, parts: {} },
    // nobody is asked how sure they are in a bench task
    judgements: [],
  };
}

/** Attempts at one bench task that were handed in and can be graded, oldest first. */
export async function taskSittings(site: Site, org: string, task: string): Promise<TestSitting[]> {
  return (await newestAtTask(site, org, task))
    .flatMap((record) => fromAttempt(record, record.benchHash) ?? [])
    .reverse();
}
