import { dayIn } from './figures.ts';
import type { Put } from './fill.ts';
import type { Language } from './languages.ts';

type Sheet = Readonly<Record<string, string>>;
type Found<S extends Sheet> = { readonly key: keyof S & string; readonly put: Put };

const quote = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** `It ended on {until}.` as a pattern that names its places. */
const patternOf = (sentence: string): RegExp =>
  new RegExp(
    `^${sentence
      .split(/\{(\w+)\}/)
      .map((part, index) => (index % 2 === 1 ? `(?<${part}>.+?)` : quote(part)))
      .join('')}$`,
    's',
  );

const patterns = new WeakMap<Sheet, readonly (readonly [string, RegExp])[]>();

/**
 * Which sentence of an English sheet this is, and what stands in its places; null for none. For
 * sentences made where no catalogue may be read: the code that checks a record brings only itself.
 */
export function findSentence<S extends Sheet>(english: S, sentence: string): Found<S> | null {
  const known =
    patterns.get(english) ??
    Object.entries(english).map(([key, text]) => [key, patternOf(text)] as const);
  patterns.set(english, known);
  for (const [key, pattern] of known) {
    const match = pattern.exec(sentence);
    if (match !== null) return { key, put: { ...match.groups } };
  }
  return null;
}

const DAY = /^\d{4}-\d\d-\d\d$/;
const MOMENT = /^(\d{4}-\d\d-\d\d) (\d\d:\d\d UTC)$/;

/**
 * An English sentence said again in the language of the page: days in its words, and a sentence within
 * the sentence said again too. One the sheet does not know stays as it is.
 */
export function sayAgain<S extends Sheet>(
  english: S,
  sentence: string,
  { language, say }: { language: Language; say: (key: keyof S & string, put: Put) => string },
): string {
  const found = language === 'en' ? null : findSentence(english, sentence);
  if (found === null) return sentence;
  const again = (value: string): string => {
    if (DAY.test(value)) return dayIn(language, value);
    const moment = MOMENT.exec(value);
    if (moment !== null) return `${dayIn(language, moment[1] as string)}, ${moment[2]}`;
    return sayAgain(english, value, { language, say });
  };
  const put = Object.entries(found.put).map(([name, value]) => [name, again(String(value))]);
  return say(found.key, Object.fromEntries(put));
}
