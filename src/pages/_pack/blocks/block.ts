/** Words in the language of the pack, or in English where nobody has translated them. */
export type Words = string | { readonly text: string; readonly lang: 'en' };

export type Paper = 'a4' | 'letter';

/** A code for a phone, beside the facts it belongs to. */
export type Code = { readonly address: string; readonly alt: string };

/** One piece of a document, whatever it is written on: printed pages or plain text. */
export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly words: Words }
  | { readonly kind: 'text'; readonly words: Words; readonly weight?: 'strong' | 'quiet' }
  | { readonly kind: 'notice'; readonly words: Words }
  | { readonly kind: 'list'; readonly items: readonly Words[] }
  | {
      readonly kind: 'facts';
      readonly caption: string;
      readonly rows: readonly (readonly [string, Words])[];
      readonly code?: Code;
    }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly head: readonly string[];
      /** the first cell of a row names it */
      readonly rows: readonly (readonly Words[])[];
      /** share of the width of each column; equal ones unless given */
      readonly shares?: readonly number[];
      /** `sentence`: the first cells are whole sentences, too much to be heavy */
      readonly names?: 'word' | 'sentence';
    }
  | { readonly kind: 'photo'; readonly jpeg: Uint8Array; readonly alt: string }
  /** what follows begins on a page of its own */
  | { readonly kind: 'page'; readonly turned: 'upright' | 'on-its-side' };

export const wordsOf = (words: Words): string => (typeof words === 'string' ? words : words.text);

/** Words of the content, which stay English, in a pack in some language. */
export const inEnglish = (text: string, language: string): Words =>
  language === 'en' ? text : { text, lang: 'en' };
