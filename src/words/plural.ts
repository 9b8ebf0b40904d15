import type { Language } from './languages.ts';

/**
 * The key of a counted sentence: `KEY.none` for 0 where the sheet has one, else `KEY.one`, `KEY.few` …
 * as the language counts (CLDR plural rules through Intl), with `KEY.other` for the rest.
 */
export function countedKey(
  sheet: Readonly<Record<string, string>>,
  key: string,
  count: number,
  language: Language,
): string {
  const none = `${key}.none`;
  if (count === 0 && Object.hasOwn(sheet, none)) return none;
  const form = `${key}.${new Intl.PluralRules(language).select(count)}`;
  return Object.hasOwn(sheet, form) ? form : `${key}.other`;
}
