import type { PlanTask } from '../form/form.ts';
import type { AnswerOf } from '../form/work-schema.ts';
import type { TaskGrade } from './form-grade.ts';
import type { PlanKey, PlanPart } from './key.ts';
import { gradeLines, lineOf } from './line.ts';

const PARTS: readonly PlanPart[] = ['stance', 'stick', 'end'];

/** One point for each part planned without bringing a fault; a critical one fails the form. */
export function gradePlan(
  task: PlanTask,
  answer: AnswerOf<'plan'> | null,
  { parts }: PlanKey,
): TaskGrade {
  const lines = PARTS.map((part) => {
    const chosen = answer?.[part] ?? null;
    const option = parts[part].find(({ id }) => id === chosen);
    const faults = option?.faults ?? [];
    return lineOf(task, {
      what: 'choice',
      about: part,
      points: option !== undefined && faults.length === 0 ? 1 : 0,
      of: 1,
      critical: faults.some(({ critical }) => critical),
      values: { chosen, brings: faults.map(({ id }) => id).join(' ') || null },
    });
  });
  return gradeLines(task, lines);
}
