import words from '../../content/messages/en/critical-errors.json' with { type: 'json' };
import type { CriticalError } from '../assessment/index.ts';
import type { Bench } from '../bench/index.ts';

/** s a hand needs to begin to draw back: about a fifth (from memory, and shorter than most take). */
const REACTION = 0.2;

/** What could have hurt somebody, and what to do instead, as sentences. */
export function sayCritical(error: CriticalError, { blade, arbor }: Bench): string {
  const { times } = error;
  const often = times === 1 ? words['often.once'] : fill(words['often.many'], { times });
  switch (error.kind) {
    case 'fed-with-faults':
      return fill(words[error.kind], {
        often,
        faults: list(error.faults.map(({ title }) => title)),
      });
    case 'fed-in-line':
      return fill(words[error.kind], {
        often,
        who: error.who.map((one) => words[`who.${one}`]).join(' and '),
      });
    case 'while-turning': {
      // to two figures: the hand's time is no better known
      const teeth = Number(((blade.teeth * arbor.speed * REACTION) / 60).toPrecision(2));
      return fill(words[error.kind], { often, teeth });
    }
    default:
      return fill(words[error.kind], { often });
  }
}

const list = (titles: readonly string[]): string =>
  titles.map((title) => title.charAt(0).toLowerCase() + title.slice(1)).join('; ');

const fill = (sentence: string, values: Readonly<Record<string, string | number>>): string =>
  sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
