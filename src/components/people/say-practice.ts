import type { PractiseNext } from '../../assessment/index.ts';
import type { Speaker } from '../../words/say.ts';

/** Why something is offered, in one line. */
export function sayPractice({ met, missed, row, days }: PractiseNext, say: Speaker): string {
  const when = say.count('people.days', days);
  if (met === 1) return say('people.practice.once', { when });
  return say(row === 0 ? 'people.practice.last' : 'people.practice.found', { missed, met, when });
}
