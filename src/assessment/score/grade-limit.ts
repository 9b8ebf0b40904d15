import type { LimitTask } from '../form/form.ts';
import type { AnswerOf } from '../form/work-schema.ts';
import type { TaskGrade } from './form-grade.ts';
import type { LimitKey } from './key.ts';
import { gradeLines, lineOf } from './line.ts';

/** A figure is right or it is not. Of readings, each sorted wrongly takes back one sorted rightly. */
export function gradeLimit(
  task: LimitTask,
  answer: AnswerOf<'limit'> | null,
  { figure, within, readings }: LimitKey,
): TaskGrade {
  if (task.ask === 'figure') {
    const value = answer?.value ?? null;
    const isRight = value !== null && Math.abs(value - figure) <= within + 1e-9;
    const values = { value, figure, unit: task.unit };
    return gradeLines(task, [
      lineOf(task, { what: 'figure', about: task.limit, points: isRight ? 1 : 0, of: 1, values }),
    ]);
  }
  // nothing marked is nothing answered: it must not earn the readings that rightly stay unmarked
  const isAnswered = answer !== null && answer.within.length > 0;
  const lines = readings.map(({ id, meets }) => {
    const marked = answer?.within.includes(id) ?? false;
    const points = !isAnswered ? 0 : marked === meets ? 1 : -1;
    return lineOf(task, { what: 'reading', about: id, points, of: 1, values: { marked, meets } });
  });
  return gradeLines(task, lines);
}
