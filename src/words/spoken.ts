import { fetchSheet } from './fetch-sheet.ts';
import { fillPlaces, type Put } from './fill.ts';
import { isLanguage, type Language, pathIn } from './languages.ts';
import { countedKey } from './plural.ts';

/**
 * The words of the page in front of somebody: browser code. A panel brings its English sheet with it, so
 * that English needs no second request; another language is fetched, sheet by sheet, before the panel starts.
 */
type Sheet = Readonly<Record<string, string>>;
const learned = new Map<string, Sheet>();

/** The language of the page. */
export function pageLanguage(): Language {
  const { lang } = globalThis.document?.documentElement ?? { lang: 'en' };
  return isLanguage(lang) ? lang : 'en';
}

/** The unit the page shows lengths in. */
export const pageUnit = (): 'mm' | 'inch' =>
  document.documentElement.dataset['unit'] === 'inch' ? 'inch' : 'mm';

/** Fetches the sheets named in the language of the page. A sheet that does not come is told in English. */
export async function learnSheets(...names: readonly string[]): Promise<void> {
  const language = pageLanguage();
  if (language === 'en') return;
  await Promise.all(
    names.map(async (name) => {
      const sheet = await fetchSheet(language, name);
      if (sheet !== null) learned.set(name, sheet);
    }),
  );
}

/** One sentence as it is written, with its places open; in English where the language has none. */
export const sentenceOf = <S extends Sheet>(
  name: string,
  english: S,
  key: keyof S & string,
): string => learned.get(name)?.[key] ?? english[key] ?? key;

/**
 * What the language of the page calls a thing that has an English name of its own: the English comes with
 * the thing, so that no panel carries it twice.
 */
export const nameIn = (sheet: string, key: string, english: string): string =>
  learned.get(sheet)?.[key] ?? english;

/** `lang` of words that stay English whatever the page speaks. */
export const englishOnly = (): 'en' | undefined => (pageLanguage() === 'en' ? undefined : 'en');

/** A function that says the sentences of one sheet. Lengths and other words go in as text. */
export function sayFrom<S extends Sheet>(name: string, english: S) {
  const say = (key: keyof S & string, put?: Put): string =>
    fillPlaces(sentenceOf(name, english, key), put);
  return Object.assign(say, {
    /** one, few, many: `{count}` is put in by itself */
    count: (key: string, count: number, put: Put = {}): string => {
      const form = countedKey(english, key, count, pageLanguage()) as keyof S & string;
      return say(form, { count, ...put });
    },
    /** a sentence whose key is made up of parts, or nothing */
    maybe: (key: string, put?: Put): string | undefined =>
      Object.hasOwn(english, key) ? say(key as keyof S & string, put) : undefined,
  });
}

/** An address of the site in the language of the page. */
export const here = (href: string): string => pathIn(pageLanguage(), href);
