import { type Language, localeOf } from './languages.ts';

/** Words in a row as the language joins them: `a, b and c`, `a, b oder c` (CLDR, through Intl). */
export const listIn = (
  language: Language,
  words: readonly string[],
  join: 'conjunction' | 'disjunction' = 'conjunction',
): string => new Intl.ListFormat(localeOf(language), { type: join }).format(words);
