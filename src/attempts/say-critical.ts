import type { CriticalError } from '../assessment/index.ts';
import type { Bench } from '../bench/index.ts';
import { listIn } from '../words/index.ts';
import { type Speaker, sayIn } from '../words/say.ts';

/** s a hand needs to begin to draw back: about a fifth (from memory, and shorter than most take). */
const REACTION = 0.2;

/** What could have hurt somebody, and what to do instead, as sentences: in English unless a speaker is told. */
export function sayCritical(
  error: CriticalError,
  { blade, arbor }: Bench,
  say: Speaker = sayIn('en'),
): string {
  const { times } = error;
  const often =
    times === 1 ? say('critical-errors.often.once') : say('critical-errors.often.many', { times });
  switch (error.kind) {
    case 'fed-with-faults': {
      const faults = error.faults.map(({ title }) => lowerFirst(title)).join('; ');
      return say('critical-errors.fed-with-faults', { often, faults });
    }
    case 'fed-in-line': {
      const who = error.who.map((one) => say(`critical-errors.who.${one}`));
      return say('critical-errors.fed-in-line', { often, who: listIn(say.language, who) });
    }
    case 'while-turning': {
      // to two figures: the hand's time is no better known
      const teeth = Number(((blade.teeth * arbor.speed * REACTION) / 60).toPrecision(2));
      return say('critical-errors.while-turning', { often, teeth });
    }
    default:
      return say(`critical-errors.${error.kind}`, { often });
  }
}

// titles of faults are content, and in English
const lowerFirst = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);
