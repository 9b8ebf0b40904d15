import MiniSearch, { type Options, type Query, type SearchResult } from 'minisearch';
import { lookUp, termsOf } from './search-term.ts';

/** What can be found: a section of a lesson, a job aid, a trade word, or a row of the limits. */
export type EntryKind = 'lesson' | 'job-aid' | 'word' | 'limit';

export type Entry = {
  readonly kind: EntryKind;
  readonly href: string;
  readonly title: string;
  /** the heading it stands under; empty where there is none */
  readonly section: string;
  /** other names, which find it and are not shown */
  readonly names: string;
  readonly text: string;
};

export type Hit = Omit<Entry, 'names'> & {
  /** the terms of this entry that were found, as looked up */
  readonly terms: ReadonlySet<string>;
};

/** The index as the site serves it. */
export type ServedIndex = {
  readonly language: string;
  /** one list for each trade word: its names, each as terms looked up */
  readonly names: readonly (readonly string[])[];
  readonly index: object;
};

type Stored = Entry & { readonly id: number };

const optionsFor = (language: string): Options<Stored> => ({
  fields: ['title', 'section', 'names', 'text'],
  storeFields: ['kind', 'href', 'title', 'section', 'text'],
  tokenize: (text) => termsOf(text).map((term) => term.text),
  processTerm: (term) => lookUp(term, language),
  searchOptions: {
    boost: { title: 4, names: 4, section: 2 },
    // short words have too many neighbours to guess at
    fuzzy: (term) => (term.length > 3 ? 0.2 : false),
    prefix: (term) => term.length > 2,
    weights: { fuzzy: 0.3, prefix: 0.6 },
  },
});

/** A phrase as it is looked up. */
export const phraseOf = (text: string, language: string): string =>
  termsOf(text)
    .flatMap((term) => lookUp(term.text, language) ?? [])
    .join(' ');

/** Builds the index of a language. @param names the names of each trade word, as written */
export function buildIndex(
  entries: readonly Entry[],
  names: readonly (readonly string[])[],
  language: string,
): ServedIndex {
  const index = new MiniSearch<Stored>(optionsFor(language));
  index.addAll(entries.map((entry, id) => ({ ...entry, id })));
  return {
    language,
    names: names
      .map((own) => [...new Set(own.map((name) => phraseOf(name, language)))])
      .filter((own) => own.length > 1),
    index: index.toJSON(),
  };
}

export type Finder = (typed: string) => readonly Hit[];

/** Makes a finder of a served index. */
export function openIndex({ language, names, index }: ServedIndex): Finder {
  const search = MiniSearch.loadJS<Stored>(index as never, optionsFor(language));
  return (typed) => {
    const phrase = phraseOf(typed, language);
    if (phrase === '') return [];
    const asked = [phrase, ...otherNames(phrase, names)];
    for (const combineWith of ['AND', 'OR'] as const) {
      const query: Query = {
        combineWith: 'OR',
        queries: asked.map((one, i) => ({
          queries: [one],
          combineWith,
          // what the reader typed comes before another name for it
          boostTerm: () => (i === 0 ? 1 : 0.5),
        })),
      };
      const found = search.search(query);
      if (found.length > 0) return found.map(hitOf);
    }
    return [];
  };
}

const hitOf = (found: SearchResult): Hit => ({
  kind: found['kind'],
  href: found['href'],
  title: found['title'],
  section: found['section'],
  text: found['text'],
  terms: new Set(found.terms),
});

/** The phrase with each trade word in it called by its other names, one at a time. */
function otherNames(phrase: string, names: ServedIndex['names']): readonly string[] {
  const within = ` ${phrase} `;
  return names.flatMap((own) => {
    const said = own.find((name) => within.includes(` ${name} `));
    return said === undefined
      ? []
      : own
          .filter((name) => name !== said)
          .map((name) => within.replace(` ${said} `, ` ${name} `).trim());
  });
}
