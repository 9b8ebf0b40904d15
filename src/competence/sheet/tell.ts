import words from '../../../content/messages/en/sheet-problems.json' with { type: 'json' };
import { isDay, sayDay } from '../dates.ts';

/** A sentence of the sheet `sheet-problems`. */
export type ProblemWord = keyof typeof words;

/**
 * What is to be said, for whatever language: a sentence and what stands in its places. A place may hold
 * another word of the sheet by its key (`name.place`), or a day of the calendar (`2026-03-03`).
 */
export type Told = {
  readonly key: ProblemWord;
  readonly put: Readonly<Record<string, string | number>>;
};

export const tell = (key: ProblemWord, put: Told['put'] = {}): Told => ({ key, put });

const isWord = (text: string | number): text is ProblemWord => Object.hasOwn(words, text);

/** The sentence with the words and days of a language in its places. */
export function sayTold(
  { key, put }: Told,
  tongue: {
    readonly wordOf: (key: ProblemWord) => string;
    readonly dayOf: (day: string) => string;
  },
): string {
  return tongue.wordOf(key).replace(/\{(\w+)\}/g, (whole, place: string) => {
    const value = put[place] ?? whole;
    if (isWord(value)) return tongue.wordOf(value);
    return typeof value === 'string' && isDay(value) ? tongue.dayOf(value) : String(value);
  });
}

/** The same in English, for records, interfaces and tests. */
export const inEnglish = (told: Told): string =>
  sayTold(told, { wordOf: (key) => words[key], dayOf: sayDay });
