import { type Figure, isPlainUnit } from '../../bench/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Question } from './lesson-schema.ts';

/** How the answer to a number question is typed. */
export const kindOfAnswer = ({ unit }: Figure): 'length' | 'plain' | 'unit' =>
  unit === 'mm' ? 'length' : isPlainUnit(unit) ? 'plain' : 'unit';

/** What is to be done, in a few words. */
export function askedHint(kind: Question['kind'], figure: Figure | null, say: Speaker): string {
  if (kind !== 'number') return say(`lesson.hint.${kind}`);
  return say(figure?.unit === 'mm' ? 'lesson.hint.length' : 'lesson.hint.number');
}
