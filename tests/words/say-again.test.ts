import { globSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import english from '../../content/messages/en/checks.json';
import { sayCheck } from '../../src/components/practical/say-check.ts';
import { findSentence, languageAsked } from '../../src/words/index.ts';
import { sayIn } from '../../src/words/say.ts';

/** The code that checks a record brings its own English; the sheet `checks` must know each sentence of it. */
const FILES = [
  ...globSync('src/records/check/{check-*,verdict,verify-*,signoff}.ts'),
  'src/panels/proof/pieces/check-pieces.ts',
  'src/store/stored-event.ts',
];

/** `It ended on ${until}.` as it comes out, with something in each place. */
const sentencesOf = (code: string): string[] =>
  [...code.matchAll(/'((?:[^'\n\\]|\\.)*)'|"([^"\n]*)"|`([^`]*)`/g)]
    .map((match) => match[1] ?? match[2] ?? match[3] ?? '')
    .filter((text) => /^[A-Z].* .*(\.|\$\{why\})$/s.test(text))
    .map((text) => text.replace(/\$\{who\}/, 'trainee').replace(/\$\{.+?\}/g, '7'));

it('knows every sentence that a check of a record can say', () => {
  const sentences = FILES.flatMap((file) => sentencesOf(readFileSync(file, 'utf8')));
  expect(sentences.length).toBeGreaterThan(45);
  expect(sentences.filter((sentence) => findSentence(english, sentence) === null)).toEqual([]);
});

it('says them again in German, days and the reason in German too, and English as it was', () => {
  const genuine =
    'Genuine. The record is as signed and logged, holds until 2029-03-02, and had not been withdrawn on 2026-03-03 10:05 UTC.';
  expect(sayCheck(genuine, sayIn('en'))).toBe(genuine);
  expect(sayCheck(genuine, sayIn('de'))).toBe(
    'Echt. Der Eintrag ist so, wie er unterschrieben und eingetragen wurde, gilt bis 2. März 2029 und war am 3. März 2026, 10:05 UTC nicht zurückgenommen.',
  );
  expect(
    sayCheck(
      'Altered. Do not rely on this file. The credential is not what its issuer signed.',
      sayIn('de'),
    ),
  ).toMatch(/^Verändert\..* Die Urkunde ist nicht, was/);
  expect(sayCheck('names has no field named x.', sayIn('de'))).toBe('names has no field named x.');
});

it('answers in the language a panel asks for, and in English where it is asked for none', () => {
  expect(languageAsked(new Headers({ 'x-language': 'de' }))).toBe('de');
  expect(languageAsked(new Headers({ 'x-language': 'constructor' }))).toBe('en');
  expect(languageAsked(new Headers())).toBe('en');
});
