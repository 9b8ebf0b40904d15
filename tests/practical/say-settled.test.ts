import { expect, it } from 'vitest';
import type { Settled } from '../../src/competence/index.ts';
import { saySettled } from '../../src/pages/_desk/say-settled.ts';
import { sayIn } from '../../src/words/say.ts';

const settled: Settled = {
  setting: 'gap-at-table',
  signed: {
    measure: 'knife.gapAtTable',
    value: 7.5,
    unit: 'mm',
    instrument: 'Feeler leaves',
    uncertainty: 0.05,
    limit: 'xx.no.such',
    verdict: 'within',
    margin: 0.5,
    source: 'HSE',
  },
  title: 'Gap at the table',
  asks: 'at least 3.5 mm and at most 8 mm',
  grade: 'must',
  critical: true,
  note: null,
  instrument: 'feeler',
};

it('says what a limit asks in German, and leaves what is signed as it is', () => {
  const said = saySettled(settled, sayIn('de'));
  expect(said.asks).toBe('mindestens 3,5 mm und höchstens 8 mm');
  expect(said.title).toBe('Abstand der Zähne zum Spaltkeil am Tisch');
  expect(said.signed).toEqual(settled.signed);
  expect(saySettled({ ...settled, asks: 'less than 2 mm' }, sayIn('de')).asks).toBe(
    'weniger als 2 mm',
  );
});

it('says it in English as it was', () => {
  expect(saySettled(settled, sayIn('en'))).toEqual(settled);
});
