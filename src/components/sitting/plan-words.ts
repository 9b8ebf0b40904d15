import type { Speaker } from '../../words/say.ts';
import type { FormTask } from './graded.ts';

type Plan = Extract<FormTask, { kind: 'plan' }>;

/** A choice of a plan in words, all lengths in mm. */
export function planWords(
  task: Plan,
  part: 'stance' | 'stick' | 'end',
  id: string,
  say: Speaker,
): string {
  switch (part) {
    case 'stance': {
      const one = task.stances.find((stance) => stance.id === id);
      if (one === undefined) return id;
      const at = { before: Math.abs(one.x), aside: Math.abs(one.z) };
      if (one.z === 0) return say('review.plan.line', at);
      return say(one.z > 0 ? 'review.plan.fence' : 'review.plan.open', at);
    }
    case 'stick': {
      const one = task.sticks.find((stick) => stick.id === id);
      if (one === undefined) return id;
      return one.length === 0
        ? say('review.plan.hand')
        : say('review.plan.stick', { length: one.length, last: one.usedForLast });
    }
    case 'end': {
      const one = task.ends.find((end) => end.id === id);
      if (one === undefined) return id;
      if (one.by === 'nobody') return say('review.plan.nobody');
      return say(one.by === 'extension' ? 'review.plan.extension' : 'review.plan.taker-off', {
        at: one.at ?? '',
      });
    }
  }
}
