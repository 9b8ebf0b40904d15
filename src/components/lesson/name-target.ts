import type { Speaker } from '../../words/say.ts';
import type { Question } from './lesson-schema.ts';
import { nameOne } from './plots/index.ts';

type Target = Extract<Question, { kind: 'mark' }>['target'];

/** What is to be marked, in words: a part, or what a dimension measures. */
export function nameTarget(target: Target, say: Speaker): string {
  if ('part' in target) return say(`lesson.part.${target.part}`);
  return nameOne(target.dimension, say);
}
