import type { Speaker } from '../../words/say.ts';
import { isPlain, type LessonFigure } from './figure-units.ts';
import type { Question } from './lesson-schema.ts';

/** How the answer to a number question is typed. */
export const kindOfAnswer = ({ unit }: LessonFigure): 'length' | 'plain' | 'unit' =>
  unit === 'mm' ? 'length' : isPlain(unit) ? 'plain' : 'unit';

/** What is to be done, in a few words. */
export function askedHint(
  kind: Question['kind'],
  figure: LessonFigure | null,
  say: Speaker,
): string {
  if (kind !== 'number') return say(`lesson.hint.${kind}`);
  return say(figure?.unit === 'mm' ? 'lesson.hint.length' : 'lesson.hint.number');
}
