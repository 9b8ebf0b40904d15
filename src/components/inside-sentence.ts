import type { Language } from '../words/index.ts';

/** A name as it stands inside a sentence: English begins it small, German nouns keep their capitals. */
export const insideSentence = (
  name: string,
  { language }: { readonly language: Language },
): string => (language === 'en' ? name.charAt(0).toLowerCase() + name.slice(1) : name);
