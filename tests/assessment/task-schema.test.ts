import { describe, expect, it } from 'vitest';
import { TaskSchema } from '../../src/assessment/index.ts';
import { describeProblem } from '../../src/bench/index.ts';
import { loadTasks } from '../../src/store/content-files.ts';

const BASE = {
  id: 'a-task',
  title: 'A task',
  brief: 'Do it.',
  mode: 'practice',
  bench: 'practice-bench',
  limits: ['gb'],
  faults: false,
  settings: [],
};
const SAY = { id: 'chip', ask: 'How thick?', of: 'cut.chipMean', within: 0.05 };

/** What is wrong with a task of these fields; null for nothing. */
function problemOf(fields: Record<string, unknown>): string | null {
  const read = TaskSchema.safeParse({ ...BASE, ...fields });
  return read.success ? null : describeProblem(read.error, 'The task').message;
}

describe('what a task may ask for', () => {
  it.each([
    ['faults', { faults: true }],
    ['settings', { settings: ['knife.gapAtTable'] }],
    ['readings in practice', { readings: ['knife-gap-at-table'] }],
    ['a choice from the rack', { choose: true, rack: 'alder-lane' }],
    ['numbers beforehand', { predict: [{ ...SAY, change: { 'job.fed': 12, 'job.cut': 'rip' } }] }],
    ['a trial cut', { cut: true }],
  ])('takes %s', (_what, fields) => {
    expect(problemOf(fields)).toBeNull();
  });

  it.each([
    ['nothing', {}, 'must ask for something'],
    ['an empty list of numbers', { predict: [] }, 'at least one number'],
    ['one id for two numbers', { predict: [SAY, SAY] }, 'must not use chip twice'],
    ['a number with no room', { predict: [{ ...SAY, within: 0 }] }, 'above 0'],
    ['a field that is no name', { predict: [{ ...SAY, change: { 'no field': 1 } }] }, 'job.fed'],
    ['a list for a field', { predict: [{ ...SAY, change: { 'job.fed': [1] } }] }, 'a number'],
    ['a word more', { cut: true, cuts: 2 }, 'has no field named cuts'],
    ['yes for true', { cut: 'yes' }, 'true or false'],
    ['a rack and no choice', { cut: true, rack: 'alder-lane' }, 'must be left out'],
  ])('refuses %s in one sentence', (_what, fields, words) => {
    expect(problemOf(fields)).toContain(words);
  });

  it('reads every task of the course', () => {
    expect(loadTasks().size).toBeGreaterThan(3);
  });
});
