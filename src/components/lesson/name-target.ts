import { isMeasureId, MEASURES } from '../../bench/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Question } from './lesson-schema.ts';

type Target = Extract<Question, { kind: 'mark' }>['target'];

/** What is to be marked, in words: a part, or what a dimension measures. */
export function nameTarget(target: Target, say: Speaker): string {
  if ('part' in target) return say(`lesson.part.${target.part}`);
  const { dimension } = target;
  if (isMeasureId(dimension))
    return say.maybe(`names.measure.${dimension}`, MEASURES[dimension].title);
  return say.maybe(`figures.${dimension}`, dimension);
}
