import { expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import { judgeReadings, readLimitSet } from '../../src/limits/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { judgeOne } from '../helpers/rules.ts';

/** One bench, two rules: the cases in which published figures disagree. */

const verdicts = (limits: readonly string[], bench: Parameters<typeof judgeOne>[1]) =>
  limits.map((limit) => judgeOne(limit, bench).verdict);

test('knife gap 10: gb and eu refuse it, us-ca and practice accept it [HSE page; EN 1870-1 6.3 p; Title 8 4296(j)]', () => {
  const limits = ['gb.knife.gap', 'eu.knife.gapMax', 'us-ca.knife.gap', 'practice.knife.gap'];
  expect(verdicts(limits, knifeAround(10))).toEqual(['outside', 'outside', 'within', 'within']);
});

test('push stick 400: eu accepts it, gb refuses it [EN 1870-1 push-stick clause; HSE page]', () => {
  const bench = { people: { pushStick: { length: 400 } } };
  expect(verdicts(['eu.stick.length', 'gb.stick.length'], bench)).toEqual(['within', 'outside']);
});

test('plate 2.0, knife 2.1: gb accepts it, eu refuses it [HSE page; EN 1870-1 clause a]', () => {
  const bench = { blade: { plate: 2, kerf: 3 }, knife: { thickness: 2.1 } };
  expect(verdicts(['gb.knife.thicker', 'eu.knife.thicker'], bench)).toEqual(['within', 'outside']);
});

test('hood 6.4 above the stock: us-ca refuses it, gb only advises [Title 8 4300.1(a)(2); 1974 regulations, from memory]', () => {
  const bench = { guard: { height: 56.4 } };
  expect(verdicts(['us-ca.guard.clearance', 'gb.guard.clearance'], bench)).toEqual([
    'outside',
    'advice',
  ]);
});

test('spindle to edge 1250 with a shallow 300 mm blade: 1200 is met from the spindle, not from the teeth [HSE page; schools guidance]', () => {
  const measures = measureBench(
    makeBench({
      blade: { diameter: 300 },
      arbor: { depth: 30, largestBlade: 400 },
      knife: { edgeRadius: 154, along: 0, up: 0, reach: 148 },
      table: { outfeed: 1250 },
    }),
  );
  expect(measures['table.outfeedFromSpindle']).toBe(1250);
  // half-chord sqrt(150^2 - 30^2) = 146.97
  expect(measures['table.outfeedFromTeeth']).toBeCloseTo(1103.03, 2);
});

test('plate 3.0, knife 3.3 meets 1.1 at equality, where 3.3 / 3.0 < 1.1 in binary [Japan, notification 86 of 1972, art 18]', () => {
  const read = readLimitSet({
    schema: 'limits/1',
    id: 'jp-art-18',
    version: 1,
    title: 'Japan, article 18 alone',
    edition: 'Ministry of Labour notification 86 of 1972',
    caution: 'One article, for this test.',
    basis: 'published',
    documents: { 'notification-86': { title: 'Ministry of Labour notification 86', year: 1972 } },
    limits: [
      {
        id: 'jp-art-18.knife.ratio',
        title: 'Knife against plate',
        measure: 'knife.plateRatio',
        min: 1.1,
        unit: '1',
        source: { document: 'notification-86', clause: 'article 18', seen: 'primary' },
      },
    ],
  });
  if (!read.ok) throw new Error(read.error.message);
  expect(3.3 / 3).toBeLessThan(1.1);
  const bench = makeBench({ blade: { plate: 3, kerf: 4.4 }, knife: { thickness: 3.3 } });
  const reading = { measure: 'knife.plateRatio', value: 3.3 / 3 } as const;
  expect(judgeReadings(bench, [reading], read.set)[0]?.verdict).toBe('within');
  const thinner = { measure: 'knife.plateRatio', value: 3.29 / 3 } as const;
  expect(judgeReadings(bench, [thinner], read.set)[0]?.verdict).toBe('outside');
});
