import { describe, expect, it } from 'vitest';
import { makeWordFinder } from '../../src/components/lesson/find-words.ts';
import { findLooseWords } from '../../src/content-check/index.ts';

const english = {
  common: new Set([
    'the',
    'wood',
    'is',
    'carry',
    'stop',
    'saw',
    'wide',
    'knife',
    'mark',
    'at',
    'of',
    'gauge',
    'blade',
    'do',
  ]),
  added: new Set(['walkway']),
  trade: new Set(['gauge']),
};
const findTerms = makeWordFinder([
  { id: 'riving-knife', term: 'riving knife' },
  { id: 'run-down', term: 'run-down' },
  { id: 'blade-gauge', term: 'gauge of a blade' },
]);
const loose = (text: string) => findLooseWords(text, english, findTerms).map(({ word }) => word);

describe('a loose word', () => {
  it.each([
    ['The arris', ['arris']],
    ['the riving', ['riving']],
    ['the gauge', ['gauge']],
    ['The wood: arrises', ['arrises']],
  ])('is found in "%s"', (text, words) => expect(loose(text)).toEqual(words));

  it.each([
    'The riving knives',
    'the run down',
    'Gauges of a blade',
    'carried, carries, carrying, carrier',
    'stopped stopping stops',
    'sawing sawed sawer',
    'widely wider widest',
    'unmarked',
    "the knife's wood",
    "doesn't",
    'the walkways',
    'The wood of Alder Lane',
    'HSE WIS16',
    '{blade.arris} {limit:xx.arris}',
  ])('is not found in "%s"', (text) => expect(loose(text)).toEqual([]));
});
