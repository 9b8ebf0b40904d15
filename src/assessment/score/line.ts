import type { FormTask } from '../form/form.ts';
import type { ScoreLine, TaskGrade } from './form-grade.ts';

type Given = Pick<ScoreLine, 'what' | 'about' | 'points' | 'of'> &
  Partial<Pick<ScoreLine, 'critical' | 'values'>>;

/** A line of one task, with the usual rest. */
export const lineOf = (
  { id }: Pick<FormTask, 'id'>,
  { critical = false, values = {}, ...given }: Given,
): ScoreLine => ({ task: id, critical, values, ...given });

/** What the lines of a task come to, 0 to 100: points over what could be had, never below 0. */
export function gradeLines(task: FormTask, lines: readonly ScoreLine[]): TaskGrade {
  const points = lines.reduce((sum, line) => sum + line.points, 0);
  const all = lines.reduce((sum, { of }) => sum + of, 0);
  const share = all === 0 ? 0 : Math.min(1, Math.max(0, points / all));
  return { task: task.id, kind: task.kind, weight: task.weight, score: 100 * share, lines };
}
