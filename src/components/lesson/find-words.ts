import type { Language } from '../../words/index.ts';

/** What of a trade word the finder needs: content/glossary. */
export type NamedWord = {
  readonly id: string;
  readonly term: string;
  readonly also?: readonly string[] | undefined;
  /** `by hand`: the word has an everyday sense too, so it is never linked without <Term> */
  readonly link?: 'by hand' | undefined;
};

/** A trade word in a text, from index `from` up to `to`. */
export type FoundWord = { readonly id: string; readonly from: number; readonly to: number };

export type WordFinder = (text: string) => readonly FoundWord[];

const IRREGULAR: Readonly<Record<string, string>> = {
  tooth: 'teeth',
  foot: 'feet',
  knife: 'knives',
  half: 'halves',
  leaf: 'leaves',
};

/** The plural of an English noun. */
function pluralOf(word: string): string {
  for (const [one, many] of Object.entries(IRREGULAR)) {
    if (word.endsWith(one)) return word.slice(0, -one.length) + many;
  }
  if (/[^aeiou]y$/.test(word)) return `${word.slice(0, -1)}ies`;
  return /(s|x|z|ch|sh)$/.test(word) ? `${word}es` : `${word}s`;
}

/** Past and -ing form of an English verb, its last letter doubled where a short vowel stands before it. */
function verbForms(word: string): string[] {
  if (word.endsWith('e')) return [`${word}d`, `${word.slice(0, -1)}ing`];
  if (/[^aeiou]y$/.test(word)) return [`${word.slice(0, -1)}ied`, `${word}ing`];
  const short = /^[^aeiou]*[aeiou][^aeiouwxy]$/.test(word);
  const base = short ? word + word.slice(-1) : word;
  return [`${base}ed`, `${base}ing`];
}

/**
 * The ways a trade word is written in a sentence: itself, its plural (`riving knives`, `gauges of a
 * blade`), and for one word alone what a verb would make of it. Other languages are left as they are.
 */
export function formsOf(term: string, language: Language = 'en'): readonly string[] {
  if (language !== 'en' || /\d/.test(term)) return [term];
  const words = term.split(' ');
  const last = words.findIndex((word) => /^(of|in|to|for|on)$/.test(word));
  const noun = (last > 0 ? last : words.length) - 1;
  const plural = words.with(noun, pluralOf(words[noun] as string)).join(' ');
  const isPlain = words.length === 1 && /^[a-z]+$/.test(term) && !/(ing|ed|s)$/.test(term);
  return [term, plural, ...(isPlain ? verbForms(term) : [])];
}

const escapeForm = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** A word may be broken over two lines, and its hyphen left out or put in. */
const pattern = (form: string) => escapeForm(form).replace(/[\s-]+/g, '[\\s-]+');
const keyOf = (form: string) => form.replace(/[\s-]+/g, ' ').toLowerCase();

/** Finds trade words in a text, the longest first where two begin at one place. */
export function makeWordFinder(words: Iterable<NamedWord>, language: Language = 'en'): WordFinder {
  const ids = new Map<string, string>();
  for (const { id, term, also = [] } of words) {
    for (const name of [term, ...also]) {
      for (const form of formsOf(name, language)) {
        if (!ids.has(keyOf(form))) ids.set(keyOf(form), id);
      }
    }
  }
  if (ids.size === 0) return () => [];
  const forms = [...ids.keys()].sort((a, b) => b.length - a.length).map(pattern);
  const any = new RegExp(
    `(?<![\\p{L}\\p{N}-])(?:${forms.join('|')})(?![\\p{L}\\p{N}]|-\\p{L})`,
    'giu',
  );
  return (text) =>
    [...text.matchAll(any)].flatMap((match) => {
      const id = ids.get(keyOf(match[0]));
      return id === undefined ? [] : [{ id, from: match.index, to: match.index + match[0].length }];
    });
}
