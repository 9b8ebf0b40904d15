import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CATALOGUES } from '../../src/words/catalogue/index.ts';
import { LANGUAGE_IDS } from '../../src/words/index.ts';

/** The catalogue as files: every language says every sentence of the English one, with the same places. */
const FOLDER = resolve(import.meta.dirname, '../../content/messages');
type Sheet = Readonly<Record<string, string>>;
const namesIn = (language: string) =>
  readdirSync(join(FOLDER, language)).map((file) => basename(file, '.json'));
const read = (language: string, name: string): Sheet =>
  JSON.parse(readFileSync(join(FOLDER, language, `${name}.json`), 'utf8'));
const placesOf = (sentence: string) =>
  [...sentence.matchAll(/\{(\w+)\}/g)].map(([, name]) => name).sort();
const linksOf = (sentence: string) =>
  [...sentence.matchAll(/\]\(([^)]+)\)/g)].map(([, href]) => href).sort();

it('knows every sheet in the folder', () => {
  expect(Object.keys(CATALOGUES.en).sort()).toEqual(namesIn('en').sort());
});

describe.each(LANGUAGE_IDS.filter((language) => language !== 'en'))('catalogue %s', (language) => {
  it('has every sheet of the English one', () => {
    expect(namesIn(language).sort()).toEqual(namesIn('en').sort());
    expect(Object.keys(CATALOGUES[language]).sort()).toEqual(namesIn('en').sort());
  });

  describe.each(namesIn(language))('%s', (name) => {
    const english = read('en', name);
    const own = read(language, name);
    it('has every sentence, and no other', () => {
      expect(Object.keys(own).sort()).toEqual(Object.keys(english).sort());
    });

    it('keeps the places and the links of each sentence', () => {
      const changed = Object.keys(own).filter(
        (key) =>
          String(placesOf(own[key] ?? '')) !== String(placesOf(english[key] ?? '')) ||
          String(linksOf(own[key] ?? '')) !== String(linksOf(english[key] ?? '')),
      );
      expect(changed).toEqual([]);
    });

    it('leaves no sentence empty', () => {
      expect(Object.keys(own).filter((key) => own[key]?.trim() === '')).toEqual([]);
    });
  });
});
