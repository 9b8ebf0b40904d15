import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cohenKappa, type KappaWeights, tallyRatings } from '../../../src/grading/index.ts';

type Table = readonly (readonly number[])[];

/** Raw example of a public page on kappa with SAS, by J. Uebersax: 19 cases, raters 1 and 2. */
const UEBERSAX: Table = [
  [0, 4, 1],
  [0, 8, 0],
  [0, 1, 5],
];
/** SAS/STAT user's guide, FREQ procedure, two dermatologists, 88 patients. */
const SKIN: Table = [
  [10, 4, 1, 0],
  [5, 10, 12, 2],
  [2, 4, 12, 5],
  [0, 2, 6, 13],
];
/** Cohen 1968, table 1, shares times 200; he gives kappa .492. */
const COHEN: Table = [
  [88, 14, 18],
  [10, 40, 10],
  [2, 6, 12],
];

/** statsmodels 0.15.0, cohens_kappa: kappa, standard error, 95 % limits. */
const REFERENCE: readonly (readonly [string, Table, KappaWeights, number[]])[] = [
  ['Uebersax', UEBERSAX, 'none', [0.48416289592, 0.1380135783, 0.213661253, 0.7546645388]],
  ['Uebersax', UEBERSAX, 'linear', [0.47011952191, 0.1457460451, 0.1844625225, 0.7557765213]],
  ['Uebersax', UEBERSAX, 'quadratic', [0.45016077171, 0.1922326634, 0.0733916749, 0.8269298685]],
  ['skin', SKIN, 'none', [0.34487534626, 0.0723966874, 0.2029804464, 0.4867702461]],
  ['skin', SKIN, 'linear', [0.50816007154, 0.065508381, 0.379766004, 0.6365541391]],
  ['skin', SKIN, 'quadratic', [0.66072289157, 0.0616428324, 0.5399051601, 0.781540623]],
];

/** Twin: every pair of cases, own with own for what is seen, all with all for luck. */
function slowKappa(table: Table, weights: KappaWeights): number {
  const k = table.length;
  const cases = table.flatMap((row, i) =>
    row.flatMap((count, j) => Array.from({ length: count }, () => [i, j] as const)),
  );
  const miss = (i: number, j: number) =>
    weights === 'none'
      ? Number(i !== j)
      : (Math.abs(i - j) / (k - 1)) ** (weights === 'linear' ? 1 : 2);
  let [seen, luck] = [0, 0];
  for (const [first, second] of cases) {
    seen += miss(first, second) / cases.length;
    for (const [, other] of cases) luck += miss(first, other) / cases.length ** 2;
  }
  return 1 - seen / luck;
}

/** Twin: the error by moving each cell a little and seeing how kappa answers (delta method). */
function slowError(table: Table, weights: KappaWeights): number {
  const n = table.flat().reduce((a, b) => a + b, 0);
  const k = table.length;
  const credit = (i: number, j: number) => {
    const distance = Math.abs(i - j) / (k - 1);
    return weights === 'none' ? Number(i === j) : 1 - distance ** (weights === 'linear' ? 1 : 2);
  };
  const kappaOf = (shares: Table) => {
    let [seen, luck] = [0, 0];
    const row = (i: number) => (shares[i] as readonly number[]).reduce((a, b) => a + b, 0);
    const column = (j: number) => shares.reduce((sum, r) => sum + (r[j] as number), 0);
    shares.forEach((r, i) => {
      r.forEach((share, j) => {
        seen += credit(i, j) * share;
        luck += credit(i, j) * row(i) * column(j);
      });
    });
    return (seen - luck) / (1 - luck);
  };
  const shares = table.map((row) => row.map((count) => count / n));
  const tiny = 1e-6;
  let variance = 0;
  shares.forEach((row, i) => {
    row.forEach((share, j) => {
      const moved = (by: number) =>
        kappaOf(
          shares.map((r, a) => r.map((s, b) => s * (1 - by) + (a === i && b === j ? by : 0))),
        );
      variance += share * ((moved(tiny) - moved(-tiny)) / (2 * tiny)) ** 2;
    });
  });
  return Math.sqrt(variance / n);
}

const tables = fc
  .integer({ min: 2, max: 4 })
  .chain((k) =>
    fc.array(fc.array(fc.integer({ min: 0, max: 12 }), { minLength: k, maxLength: k }), {
      minLength: k,
      maxLength: k,
    }),
  )
  .filter((table) => table.flat().some((count) => count > 0));
const anyWeights = fc.constantFrom<KappaWeights[]>('none', 'linear', 'quadratic');

describe("Cohen's kappa", () => {
  test('is .4842, and .4701 with linear weights, in the printed SAS output', () => {
    expect(cohenKappa(UEBERSAX).kappa?.toFixed(4)).toBe('0.4842');
    expect(cohenKappa(UEBERSAX, 'linear').kappa?.toFixed(4)).toBe('0.4701');
  });

  test('is .3449 with limits .2030 and .4868 for the two dermatologists of the SAS guide', () => {
    const { kappa, interval } = cohenKappa(SKIN);
    expect(kappa?.toFixed(4)).toBe('0.3449');
    expect(interval?.low.toFixed(4)).toBe('0.2030');
    expect(interval?.high.toFixed(4)).toBe('0.4868');
  });

  test("is .492 for Cohen's own table of 1968", () => {
    expect(cohenKappa(COHEN).kappa?.toFixed(3)).toBe('0.492');
  });

  test('is .4 for 20, 5, 10, 15, whatever the weights: two categories have no near miss', () => {
    const table = [
      [20, 5],
      [10, 15],
    ];
    for (const weights of ['none', 'linear', 'quadratic'] as const) {
      expect(cohenKappa(table, weights).kappa).toBeCloseTo(0.4, 12);
      // statsmodels 0.15.0
      expect(cohenKappa(table, weights).error).toBeCloseTo(0.1269960629, 10);
    }
  });

  test.each(REFERENCE)('of %s matches the reference library', (_name, table, weights, expected) => {
    const { kappa, error, interval } = cohenKappa(table, weights);
    const [value, deviation, low, high] = expected as [number, number, number, number];
    expect(kappa).toBeCloseTo(value, 9);
    expect(error).toBeCloseTo(deviation, 9);
    expect(interval?.low).toBeCloseTo(low, 9);
    expect(interval?.high).toBeCloseTo(high, 9);
  });

  test('equals the count over pairs of cases, and its error the answer to small moves', () => {
    fc.assert(
      fc.property(tables, anyWeights, (table, weights) => {
        const { kappa, error } = cohenKappa(table, weights);
        if (kappa === null) return;
        expect(kappa).toBeCloseTo(slowKappa(table, weights), 10);
        expect(error).toBeCloseTo(slowError(table, weights), 5);
      }),
      { numRuns: 60 },
    );
  });

  test('lies between -1 and 1 inside its interval, and is the same the other way round', () => {
    fc.assert(
      fc.property(tables, anyWeights, (table, weights) => {
        const { kappa, interval } = cohenKappa(table, weights);
        const turned = table.map((_, i) => table.map((row) => row[i] as number));
        if (kappa === null || interval === null) return;
        expect(kappa).toBeGreaterThanOrEqual(-1 - 1e-12);
        expect(kappa).toBeLessThanOrEqual(1);
        expect(interval.low).toBeLessThanOrEqual(kappa + 1e-12);
        expect(interval.high).toBeGreaterThanOrEqual(kappa - 1e-12);
        expect(interval.low).toBeGreaterThanOrEqual(-1);
        expect(interval.high).toBeLessThanOrEqual(1);
        expect(cohenKappa(turned, weights).kappa).toBeCloseTo(kappa, 10);
      }),
    );
  });

  test('is 1 when both agree throughout, -1 when each says the opposite', () => {
    const agree = [
      [7, 0],
      [0, 3],
    ];
    const oppose = [
      [0, 5],
      [5, 0],
    ];
    expect(cohenKappa(agree)).toMatchObject({ kappa: 1, interval: { low: 1, high: 1 } });
    expect(cohenKappa(oppose).kappa).toBe(-1);
  });

  test('is null when both used one category only: luck explains everything', () => {
    const one = [
      [9, 0],
      [0, 0],
    ];
    expect(cohenKappa(one)).toMatchObject({ kappa: null, error: null, interval: null });
  });

  test('names what it refuses', () => {
    expect(() => cohenKappa([[1, 2]])).toThrow('table must have at least 2 rows of 2');
    expect(() =>
      cohenKappa([
        [1, 2, 3],
        [1, 2, 3],
      ]),
    ).toThrow('table must be square, not 2 rows of 3.');
    expect(() =>
      cohenKappa([
        [1, -2],
        [1, 2],
      ]),
    ).toThrow('a count in the table must be a whole number 0 or more');
    expect(() =>
      cohenKappa([
        [0, 0],
        [0, 0],
      ]),
    ).toThrow('the number of ratings');
  });
});

describe('tallied ratings', () => {
  const results = ['yes', 'no', 'not-seen'] as const;

  test('stand with the first rater in rows', () => {
    const table = tallyRatings(
      [
        ['yes', 'yes'],
        ['yes', 'no'],
        ['yes', 'no'],
        ['not-seen', 'yes'],
      ],
      results,
    );
    expect(table).toEqual([
      [1, 2, 0],
      [0, 0, 0],
      [1, 0, 0],
    ]);
  });

  test('refuse a result that is not in the list', () => {
    const odd = 'maybe' as 'yes';
    expect(() => tallyRatings([['yes', odd]], results)).toThrow('not yes / maybe.');
    expect(() => tallyRatings([[odd, 'yes']], results)).toThrow('among yes, no, not-seen');
  });
});
