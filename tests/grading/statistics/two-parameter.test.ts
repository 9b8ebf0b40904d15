import { describe, expect, test } from 'vitest';
import {
  countPatterns,
  fitTwoParameter,
  gaussHermite,
  type MarkPattern,
  normalDensity,
  normalQuantile,
  type TwoParameterFit,
  type TwoParameterItem,
} from '../../../src/grading/index.ts';
import { seeded } from '../../helpers/seeded.ts';
import { LSAT_PATTERNS, LSAT_ROWS } from './published-data.ts';

/** R package ltm, ltm(LSAT ~ z1): estimates, and the standard errors it prints. */
const LTM = {
  discrimination: [0.8253715, 0.7229499, 0.8904748, 0.6885502, 0.6574516],
  difficulty: [-3.3597341, -1.3696497, -0.2798983, -1.8659189, -3.1235725],
  discriminationError: [0.2581, 0.1867, 0.2326, 0.1852, 0.21],
  difficultyError: [0.8669, 0.3073, 0.0997, 0.4341, 0.87],
};

/** scipy 1.17.1: the same likelihood, 61 points, BFGS then Nelder-Mead to 1e-10. */
const SCIPY = {
  discrimination: [0.825659, 0.722744, 0.890875, 0.688368, 0.656856],
  difficulty: [-3.358812, -1.370057, -0.279666, -1.866381, -3.125907],
  logLikelihood: -2466.653377398,
};

/** Twin: the chance of a pattern by the trapezium rule over abilities -8 to 8, no quadrature. */
function slowChance(marks: readonly number[], items: readonly TwoParameterItem[]): number {
  const step = 0.02;
  let sum = 0;
  for (let ability = -8; ability <= 8; ability += step) {
    let chance = normalDensity(ability) * step;
    items.forEach(({ discrimination, difficulty }, i) => {
      const right = 1 / (1 + Math.exp(-discrimination * (ability - difficulty)));
      chance *= marks[i] === 1 ? right : 1 - right;
    });
    sum += chance;
  }
  return sum;
}

function slowLikelihood(patterns: readonly MarkPattern[], items: readonly TwoParameterItem[]) {
  return patterns.reduce(
    (sum, { marks, count }) => sum + count * Math.log(slowChance(marks, items)),
    0,
  );
}

const lsat = fitTwoParameter(LSAT_PATTERNS) as TwoParameterFit;

describe('Gauss-Hermite quadrature', () => {
  test('has 3 points at 0 and the root of 3, with weights 2/3 and 1/6', () => {
    // Abramowitz and Stegun, table 25.10, scaled to the normal density
    const { nodes, weights } = gaussHermite(3);
    [-Math.sqrt(3), 0, Math.sqrt(3)].forEach((node, i) => {
      expect(nodes[i]).toBeCloseTo(node, 13);
    });
    [1 / 6, 2 / 3, 1 / 6].forEach((weight, i) => {
      expect(weights[i]).toBeCloseTo(weight, 13);
    });
  });

  test.each([1, 2, 5, 21, 60])('is exact for the moments 1, 0, 1, 0, 3, 15 ... of %d', (points) => {
    const { nodes, weights } = gaussHermite(points);
    let moment = 1;
    for (let degree = 0; degree < Math.min(2 * points, 20); degree += 2) {
      const sum = nodes.reduce((s, node, i) => s + (weights[i] as number) * node ** degree, 0);
      const odd = nodes.reduce(
        (s, node, i) => s + (weights[i] as number) * node ** (degree + 1),
        0,
      );
      expect(sum / moment).toBeCloseTo(1, 10);
      expect(Math.abs(odd) / moment).toBeLessThan(1e-8);
      moment *= degree + 1;
    }
  });

  test('refuses no points and too many', () => {
    expect(() => gaussHermite(0)).toThrow('points must be a whole number from 1 to 60, not 0.');
    expect(() => gaussHermite(61)).toThrow(RangeError);
  });
});

describe('the two-parameter fit', () => {
  test('reaches the published log-likelihood -2466.653 of the LSAT data', () => {
    expect(lsat.converged).toBe(true);
    expect(lsat.people).toBe(1000);
    expect(lsat.logLikelihood.toFixed(3)).toBe('-2466.653');
  });

  test('lies within a hundredth of the published standard errors, and a hair higher', () => {
    // ltm stops at a gradient of .024, so its last digits are not at the top; ours may not be lower
    lsat.items.forEach(({ discrimination, difficulty }, i) => {
      const slope = Math.abs(discrimination - (LTM.discrimination[i] as number));
      const place = Math.abs(difficulty - (LTM.difficulty[i] as number));
      expect(slope).toBeLessThan((LTM.discriminationError[i] as number) / 100);
      expect(place).toBeLessThan((LTM.difficultyError[i] as number) / 100);
    });
    const published = LTM.discrimination.map((discrimination, i) => ({
      discrimination,
      difficulty: LTM.difficulty[i] as number,
    }));
    const gain =
      slowLikelihood(LSAT_PATTERNS, lsat.items) - slowLikelihood(LSAT_PATTERNS, published);
    expect(gain).toBeGreaterThan(0);
    expect(gain).toBeLessThan(1e-4);
  });

  test('is the top that scipy finds, to six digits', () => {
    lsat.items.forEach(({ discrimination, difficulty }, i) => {
      expect(Math.abs(discrimination - (SCIPY.discrimination[i] as number))).toBeLessThan(1.5e-6);
      expect(Math.abs(difficulty - (SCIPY.difficulty[i] as number))).toBeLessThan(1.5e-6);
    });
    expect(lsat.logLikelihood).toBeCloseTo(SCIPY.logLikelihood, 8);
  });

  test('expects the numbers ltm prints: 2.277 of 00000, 173.310 of 11011, 296.693 of 11111', () => {
    const expected = (marks: string) => 1000 * slowChance([...marks].map(Number), lsat.items);
    expect(Math.abs(expected('00000') - 2.277)).toBeLessThan(0.005);
    expect(Math.abs(expected('10010') - 15.59)).toBeLessThan(0.01);
    expect(Math.abs(expected('11011') - 173.31)).toBeLessThan(0.02);
    expect(Math.abs(expected('11111') - 296.693)).toBeLessThan(0.02);
  });

  test('has the likelihood of the slow integral, lower on every side', () => {
    expect(slowLikelihood(LSAT_PATTERNS, lsat.items)).toBeCloseTo(lsat.logLikelihood, 6);
    const moved = (item: number, change: Partial<TwoParameterItem>) =>
      slowLikelihood(
        LSAT_PATTERNS,
        lsat.items.map((one, i) => (i === item ? { ...one, ...change } : one)),
      );
    lsat.items.forEach(({ discrimination, difficulty }, i) => {
      for (const by of [-0.02, 0.02]) {
        expect(moved(i, { discrimination: discrimination + by })).toBeLessThan(lsat.logLikelihood);
        expect(moved(i, { difficulty: difficulty + by })).toBeLessThan(lsat.logLikelihood);
      }
    });
  });

  test('finds again what made the data: 4000 people, seed 41', () => {
    const made = [
      { discrimination: 0.8, difficulty: -1 },
      { discrimination: 1.2, difficulty: -0.4 },
      { discrimination: 1.5, difficulty: 0 },
      { discrimination: 1, difficulty: 0.5 },
      { discrimination: 2, difficulty: 1 },
      { discrimination: 0.6, difficulty: 0.2 },
    ];
    const next = seeded(41);
    const rows = Array.from({ length: 4000 }, () => {
      const ability = normalQuantile(Math.max(1e-9, next()));
      return made.map(({ discrimination, difficulty }): 0 | 1 =>
        next() < 1 / (1 + Math.exp(-discrimination * (ability - difficulty))) ? 1 : 0,
      );
    });
    const fit = fitTwoParameter(countPatterns(rows));
    expect(fit?.converged).toBe(true);
    made.forEach((truth, i) => {
      const found = fit?.items[i];
      expect(Math.abs((found?.discrimination ?? 9) - truth.discrimination)).toBeLessThan(0.25);
      expect(Math.abs((found?.difficulty ?? 9) - truth.difficulty)).toBeLessThan(0.15);
    });
  });

  test('is the same from rows as from counts', () => {
    const again = fitTwoParameter(countPatterns(LSAT_ROWS));
    expect(countPatterns(LSAT_ROWS)).toEqual(LSAT_PATTERNS);
    expect(again).toEqual(lsat);
  });

  test('says so when a slope runs away: a perfect staircase has none', () => {
    const stairs = [
      { marks: [0, 0, 0], count: 5 },
      { marks: [1, 0, 0], count: 5 },
      { marks: [1, 1, 0], count: 5 },
      { marks: [1, 1, 1], count: 5 },
    ] as const;
    expect(fitTwoParameter(stairs)?.converged).toBe(false);
  });

  test('is null when everyone answers an item alike', () => {
    expect(
      fitTwoParameter([
        { marks: [1, 0, 1], count: 4 },
        { marks: [1, 1, 0], count: 3 },
      ]),
    ).toBeNull();
  });

  test('names what it refuses', () => {
    expect(() => fitTwoParameter([])).toThrow('patterns must have at least 1 rows of 3');
    expect(() => fitTwoParameter([{ marks: [1, 0], count: 1 }])).toThrow('not 1 of 2');
    expect(() => fitTwoParameter([{ marks: [1, 0, 1], count: 0 }])).toThrow('count of a pattern');
    expect(() => fitTwoParameter([{ marks: [1, 0, 2 as 1], count: 1 }])).toThrow('a mark must be');
  });
});
