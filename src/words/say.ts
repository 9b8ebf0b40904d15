import { CATALOGUES, type SheetName, type WordId } from './catalogue/index.ts';
import { dayIn, figuresIn } from './figures.ts';
import { fillPlaces, type Put } from './fill.ts';
import { type Language, languageOfPath, pathIn } from './languages.ts';
import { countedKey } from './plural.ts';

/** What a page made on the server says its words with. */
export type Speaker = {
  readonly language: Language;
  /** a sentence of the catalogue, its places filled */
  (id: WordId, put?: Put): string;
  /** one, few, many: the id without its ending; `{count}` is put in by itself */
  count(id: string, count: number, put?: Put): string;
  /** a sentence whose id is made up of parts, or what to say when there is none */
  maybe(id: string, otherwise: string, put?: Put): string;
  /** an address of the site in this language */
  at(href: string): string;
  /** a day in words: `3 March 2029` */
  day(when: string): string;
  /** figures written with a point, as the language writes them */
  figures(text: string): string;
};

type Sheet = Readonly<Record<string, string>>;

/** The sheets of a language by name, English under its own sentences, each put together once. */
function openSheets(language: Language): (name: string) => Sheet {
  const opened = new Map<string, Sheet>();
  return (name) => {
    const known = opened.get(name);
    if (known !== undefined) return known;
    const sheet: Sheet = {
      ...CATALOGUES.en[name as SheetName],
      ...CATALOGUES[language][name as SheetName],
    };
    opened.set(name, sheet);
    return sheet;
  };
}

const speakers = new Map<Language, Speaker>();

/** The words of the interface in a language. Server and build only: it holds every sheet. */
export function sayIn(language: Language): Speaker {
  const known = speakers.get(language);
  if (known !== undefined) return known;
  const sheetOf = openSheets(language);
  const locate = (id: string): { sheet: Sheet; key: string } => {
    const cut = id.indexOf('.');
    return { sheet: sheetOf(id.slice(0, cut)), key: id.slice(cut + 1) };
  };
  const find = (id: string): string | undefined => {
    const { sheet, key } = locate(id);
    return sheet[key];
  };
  const say = (id: WordId, put?: Put): string => fillPlaces(find(id) ?? id, put);
  const speaker: Speaker = Object.assign(say, {
    language,
    count: (id: string, count: number, put: Put = {}): string => {
      const { sheet, key } = locate(id);
      const form = countedKey(sheet, key, count, language);
      return fillPlaces(sheet[form] ?? id, { count, ...put });
    },
    maybe: (id: string, otherwise: string, put?: Put): string => {
      const found = find(id);
      return found === undefined ? otherwise : fillPlaces(found, put);
    },
    at: (href: string): string => pathIn(language, href),
    day: (when: string): string => dayIn(language, when),
    figures: (text: string): string => figuresIn(language, text),
  });
  speakers.set(language, speaker);
  return speaker;
}

/** The words for a page by its address: `sayFor(Astro)`. */
export const sayFor = ({ url }: { readonly url: URL }): Speaker =>
  sayIn(languageOfPath(url.pathname));
