import { PART_TITLES } from '../../attempts/index.ts';
import { MEASURING_POINTS } from '../../bench/index.ts';
import type { FormTask, GradedSitting } from './graded.ts';

export type SeenRow = {
  readonly part: string;
  readonly title: string;
  readonly looked: number;
  readonly measured: number;
  readonly tried: number;
  /** faults the bench has on that part, found, and named there in error */
  readonly faults: number;
  readonly found: number;
  readonly errors: number;
};

/** Part by part: how it was looked into, what was there, and what was named. */
export function seenRows(
  task: Extract<FormTask, { kind: 'find' }>,
  { work, key, grade }: GradedSitting,
): SeenRow[] {
  const answer = work[task.id];
  const actions = answer?.kind === 'find' ? answer.actions : [];
  const known = key[task.id];
  const faults = known?.kind === 'find' ? known.faults : [];
  const lines = grade.tasks.find((one) => one.task === task.id)?.lines ?? [];
  const named = (part: string, ...what: string[]) =>
    lines.filter((line) => what.includes(line.what) && line.values['part'] === part).length;
  return Object.entries(PART_TITLES).map(([part, title]) => ({
    part,
    title,
    looked: actions.filter((one) => one.do === 'look' && one.at === part).length,
    measured: actions.filter(
      (one) => one.do === 'measure' && MEASURING_POINTS[one.at].part === part,
    ).length,
    tried: actions.filter((one) => one.do === 'try' && one.part === part).length,
    faults: faults.filter((fault) => fault.part === part).length,
    found: named(part, 'found'),
    errors: named(part, 'false-alarm', 'wrong-fault'),
  }));
}
