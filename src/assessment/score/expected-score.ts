import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { FindTask, Form, FormTask } from '../form/form.ts';
import { chanceOf, expectedFinding, overPopulation } from '../plant/index.ts';

/** Expected score of one such person at the faults of a form. */
export function expectedFind(
  { planted, lookAlikes }: FindTask,
  { catalogue, estimate }: ExamRules,
  shift: number,
): number {
  const weightOf = (fault: string) =>
    SEVERITY_WEIGHT[catalogue.byId.get(fault)?.severity ?? 'danger'];
  const parts = new Set(planted.map(({ fault }) => catalogue.byId.get(fault)?.part));
  return expectedFinding(
    {
      faults: planted.map((one) => ({ weight: weightOf(one.fault), estimate: one.estimate })),
      lookAlikes: lookAlikes.map((one) => ({
        weight: weightOf(one.like),
        onFaultyPart: parts.has(one.part),
        estimate: one.estimate,
      })),
      remedy: estimate.find.remedy,
    },
    shift,
  );
}

const expectedTask = (task: FormTask, rules: ExamRules, shift: number): number =>
  task.kind === 'find' ? expectedFind(task, rules, shift) : 100 * chanceOf(task.estimate + shift);

/**
 * What a form is expected to score, 0 to 100, over the stated population and the stated estimates.
 * Forms of one blueprint are made to agree in this; how well they do is tried over many seeds.
 */
export function expectedScore({ tasks }: Form, rules: ExamRules): number {
  const all = tasks.reduce((sum, { weight }) => sum + weight, 0);
  return overPopulation((shift) =>
    tasks.reduce((sum, task) => sum + (task.weight / all) * expectedTask(task, rules, shift), 0),
  );
}
