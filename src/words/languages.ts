/** The languages the site speaks. English is the one every word is written in first. */
export const LANGUAGES = {
  en: { name: 'English', direction: 'ltr' },
  de: { name: 'Deutsch', direction: 'ltr' },
} as const satisfies Record<string, Tongue>;

type Tongue = {
  /** the language in its own words */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
};

export type Language = keyof typeof LANGUAGES;
export const LANGUAGE_IDS = Object.keys(LANGUAGES) as readonly Language[];
export const isLanguage = (text: string): text is Language => Object.hasOwn(LANGUAGES, text);

/** The locale whose rules for days, lists and numbers a language is written by: English as in Britain. */
export const localeOf = (language: Language): string => (language === 'en' ? 'en-GB' : language);

/** The language an address is in: `/de/lessons/` is German, `/lessons/` English. */
export function languageOfPath(pathname: string): Language {
  const first = pathname.split('/')[1] ?? '';
  return first !== 'en' && isLanguage(first) ? first : 'en';
}

/** The address without its language: `/de/lessons/` is `/lessons/`. */
export function plainPath(pathname: string): string {
  const language = languageOfPath(pathname);
  return language === 'en' ? pathname : pathname.slice(language.length + 1) || '/';
}

/** An address of the site in a language: `/lessons/` in German is `/de/lessons/`. Interfaces have none. */
export function pathIn(language: Language, href: string): string {
  const isPage = href.startsWith('/') && !href.startsWith('//') && !href.startsWith('/api/');
  if (!isPage) return href;
  const plain = plainPath(href);
  return language === 'en' ? plain : `/${language}${plain}`;
}

/** The language a panel asks an interface to answer in: its header `x-language`, else English. */
export function languageAsked(headers: Headers): Language {
  const asked = headers.get('x-language') ?? 'en';
  return isLanguage(asked) ? asked : 'en';
}
