import type { ReactTask } from '../form/form.ts';
import type { AnswerOf } from '../form/work-schema.ts';
import type { ScoreLine, TaskGrade } from './form-grade.ts';
import type { ReactKey } from './key.ts';
import { gradeLines, lineOf } from './line.ts';

/** What a slip costs, and the share of the steps' points that their order is worth. */
const SLIP_COST = 1;
const ORDER_SHARE = 0.5;

type Pair = { readonly first: number; readonly second: number };

/** Pairs of steps, one of which comes before the other, as places in the content. */
function pairsOf(places: readonly number[]): Pair[] {
  return places.flatMap((first, i) =>
    places.slice(i + 1).flatMap((second) => (first === second ? [] : [{ first, second }])),
  );
}

/**
 * A point for each step that belongs, half as much again for their order (the share of pairs that
 * stand the right way round, of all there are), and a point off for each slip.
 */
export function gradeReact(
  task: ReactTask,
  answer: AnswerOf<'react'> | null,
  { steps, slips }: ReactKey,
): TaskGrade {
  const chosen = [...new Set(answer?.steps ?? [])];
  const lines: ScoreLine[] = [
    ...steps.map(({ id, critical, place }) => {
      const at = chosen.indexOf(id);
      return lineOf(task, {
        what: 'step',
        about: id,
        points: at < 0 ? 0 : 1,
        of: 1,
        critical: critical && at < 0,
        values: { place, chosen: at < 0 ? null : at + 1 },
      });
    }),
    ...slips
      .filter(({ id }) => chosen.includes(id))
      .map(({ id, critical }) =>
        lineOf(task, { what: 'slip', about: id, points: -SLIP_COST, of: 0, critical }),
      ),
  ];
  const placeOf = new Map(steps.map(({ id, place }) => [id, place]));
  const given = pairsOf(chosen.flatMap((id) => placeOf.get(id) ?? []));
  const all = pairsOf(steps.map(({ place }) => place)).length;
  const right = given.filter(({ first, second }) => first < second).length;
  const worth = ORDER_SHARE * steps.length;
  lines.push(
    lineOf(task, {
      what: 'order',
      about: 'order',
      points: all === 0 ? worth : (worth * right) / all,
      of: worth,
      values: { right, pairs: all },
    }),
  );
  return gradeLines(task, lines);
}
