import type { Language } from '../languages.ts';
import { DE } from './de.ts';
import { EN } from './en.ts';

export type SheetName = keyof typeof EN;
type Sheets = typeof EN;

/** A whole catalogue: every sheet, every key. */
export type Catalogue = {
  readonly [Name in SheetName]: { readonly [Key in keyof Sheets[Name]]: string };
};

/** `SHEET.KEY` of every sentence there is. */
export type WordId = {
  [Name in SheetName]: `${Name}.${keyof Sheets[Name] & string}`;
}[SheetName];

/** The languages other than English may lag behind by a sentence while words are being written; a test says so. */
export const CATALOGUES: Readonly<Record<Language, Partial<Catalogue>>> = { en: EN, de: DE };
