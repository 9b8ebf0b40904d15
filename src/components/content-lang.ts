import type { Language } from '../words/index.ts';

/**
 * The `lang` of content that is written in English alone (faults, tasks, notes on rules), inside a page:
 * nothing on an English page, `en` on every other.
 */
export const contentLang = ({ language }: { readonly language: Language }): Language | undefined =>
  language === 'en' ? undefined : 'en';
