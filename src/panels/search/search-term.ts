/** How a text is cut into the terms that are searched. The same at build and in the browser. */

/** A length in an indexed text, held in mm so that it can be shown in the reader's unit. */
export const LENGTH = /\u27E6(-?[\d.]+)\u27E7/g;
export const holdLength = (mm: number): string => `\u27E6${Number(mm.toFixed(3))}\u27E7`;

const WORD = /[\p{L}\p{N}]+(?:['’][\p{L}]+)?/gu;

export type Term = { readonly text: string; readonly from: number; readonly to: number };

/** The words of a text with their places; lengths are no words. */
export const termsOf = (text: string): readonly Term[] =>
  [...text.replace(LENGTH, (held) => ' '.repeat(held.length)).matchAll(WORD)].map((match) => ({
    text: match[0],
    from: match.index,
    to: match.index + match[0].length,
  }));

const IRREGULAR: Readonly<Record<string, string>> = {
  teeth: 'tooth',
  knives: 'knife',
  feet: 'foot',
  halves: 'half',
  leaves: 'leaf',
  lives: 'life',
};

/** Accents are left out by many who type, so they count for nothing. */
const bare = (word: string) => word.normalize('NFD').replace(/\p{M}/gu, '').replace(/ß/g, 'ss');

/**
 * A word as it is looked up: small letters, no accents, and in English the singular. Wrong letters are
 * the index's business. Null for a word of one letter.
 */
export function lookUp(word: string, language: string): string | null {
  const small = bare(word.toLowerCase()).replace(/['’].*$/, '');
  if (small.length < 2) return null;
  return language === 'en' ? singularOf(small) : small;
}

function singularOf(word: string): string {
  const known = IRREGULAR[word];
  if (known !== undefined) return known;
  if (word.length < 4 || /(ss|us|is)$/.test(word)) return word;
  if (/ies$/.test(word)) return `${word.slice(0, -3)}y`;
  if (/(x|z|ch|sh|ss)es$/.test(word)) return word.slice(0, -2);
  return word.endsWith('s') ? word.slice(0, -1) : word;
}
