/**
 * Flesch-Kincaid grade level: Kincaid, Fishburne, Rogers and Chissom, "Derivation of new readability
 * formulas for Navy enlisted personnel", Research Branch Report 8-75, 1975:
 * 0.39 words per sentence + 11.8 syllables per word - 15.59 (coefficients from memory).
 * Age is grade plus five, as schools in the United States count it.
 */
export function gradeLevel(text: string): number {
  const sentences = text.split(/[.!?]+(?:\s|$)|\n\s*\n/).filter((one) => /[a-z]/i.test(one));
  const words = wordsOf(text);
  const syllables = words.reduce((sum, word) => sum + countSyllables(word), 0);
  return 0.39 * (words.length / sentences.length) + 11.8 * (syllables / words.length) - 15.59;
}

export const readingAge = (text: string): number => gradeLevel(text) + 5;

export const wordsOf = (text: string): string[] => text.match(/[a-z]+(?:['’-][a-z]+)*/gi) ?? [];

/** Vowel groups, less a silent e, -es or -ed at the end; every word has at least one. */
export function countSyllables(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, '');
  const trimmed = plain
    .replace(/(?<=[^aeiouy])e$/, (e) => (/[^aeiouy]le$/.test(plain) ? e : ''))
    .replace(/(?<=[^aeioutdy])ed$/, 'd')
    .replace(/(?<=[^aeiouyszx])(?<!(?:ch|sh|[cg]))es$/, 's');
  return Math.max(1, trimmed.match(/[aeiouy]+/g)?.length ?? 1);
}
