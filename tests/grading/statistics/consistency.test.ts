import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type BetaBinomial,
  decisionConsistency,
  fitBetaBinomial,
  kuderRichardson21,
  livingstonIndex,
  totalChances,
} from '../../../src/grading/index.ts';

const PUBLISHED = { items: 10, mean: 6.6, variance: 5.84 } as const;

/** Chance of `cut` or more right of n at true score t, term by term. */
function passAt(t: number, n: number, cut: number): number {
  let sum = 0;
  for (let x = cut; x <= n; x += 1) {
    let choose = 1;
    for (let i = 1; i <= x; i += 1) choose = (choose * (n - x + i)) / i;
    sum += choose * t ** x * (1 - t) ** (n - x);
  }
  return sum;
}

/**
 * Twin: averages over the true scores by the midpoint rule. With t = sin^2 the beta density has no
 * poles for shapes of a half or more, and its constant drops out.
 */
function slowConsistency({ items, alpha, beta }: BetaBinomial, cut: number) {
  const steps = 4000;
  let [weight, pass, agreement] = [0, 0, 0];
  for (let i = 0; i < steps; i += 1) {
    const angle = ((i + 0.5) / steps) * (Math.PI / 2);
    const density = Math.sin(angle) ** (2 * alpha - 1) * Math.cos(angle) ** (2 * beta - 1);
    const passing = passAt(Math.sin(angle) ** 2, items, cut);
    weight += density;
    pass += density * passing;
    agreement += density * (passing ** 2 + (1 - passing) ** 2);
  }
  return { pass: pass / weight, agreement: agreement / weight };
}

const models = fc
  .record({
    items: fc.integer({ min: 2, max: 30 }),
    alpha: fc.double({ min: 0.8, max: 20, noNaN: true }),
    beta: fc.double({ min: 0.8, max: 20, noNaN: true }),
  })
  .chain((model) => fc.tuple(fc.constant(model), fc.integer({ min: 1, max: model.items })));

describe('the beta-binomial model', () => {
  test('has alpha 3.046719 and beta 1.569522 for ten items, mean 6.6, variance 5.84', () => {
    // Keats and Lord 1962, Huynh 1976: from the definition, two ways
    const model = fitBetaBinomial(PUBLISHED);
    expect(model?.alpha).toBeCloseTo(3.046719, 6);
    expect(model?.beta).toBeCloseTo(1.569522, 6);
  });

  test('passes .686497, agrees .785991 and has kappa .502812 at a cut of 6', () => {
    const model = fitBetaBinomial(PUBLISHED) as BetaBinomial;
    const { pass, agreement, kappa } = decisionConsistency(model, 6);
    expect(pass).toBeCloseTo(0.686497, 6);
    expect(agreement).toBeCloseTo(0.785991, 6);
    expect(kappa).toBeCloseTo(0.502812, 6);
  });

  test('gives back the mean and the variance it was fitted to', () => {
    fc.assert(
      fc.property(models, ([{ items, alpha, beta }]) => {
        const chances = totalChances({ items, alpha, beta });
        const mean = chances.reduce((sum, chance, x) => sum + chance * x, 0);
        const variance = chances.reduce((sum, chance, x) => sum + chance * (x - mean) ** 2, 0);
        expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10);
        const again = fitBetaBinomial({ items, mean, variance });
        expect((again?.alpha ?? 0) / alpha).toBeCloseTo(1, 6);
        expect((again?.beta ?? 0) / beta).toBeCloseTo(1, 6);
        // the model's reliability is n / (n + alpha + beta)
        expect(kuderRichardson21({ items, mean, variance })).toBeCloseTo(
          items / (items + alpha + beta),
          9,
        );
      }),
    );
  });

  test('equals the average of binomials over the true scores', () => {
    fc.assert(
      fc.property(models, ([model, cut]) => {
        const quick = decisionConsistency(model, cut);
        const slow = slowConsistency(model, cut);
        expect(quick.pass).toBeCloseTo(slow.pass, 5);
        expect(quick.agreement).toBeCloseTo(slow.agreement, 5);
      }),
      { numRuns: 25 },
    );
  });

  test('is even for alpha and beta 1: every total has the same chance', () => {
    for (const chance of totalChances({ items: 12, alpha: 1, beta: 1 })) {
      expect(chance).toBeCloseTo(1 / 13, 12);
    }
  });

  test('agrees at least as luck would, and passes fewer as the cut rises', () => {
    fc.assert(
      fc.property(models, ([model, cut]) => {
        const { agreement, chance, kappa, pass } = decisionConsistency(model, cut);
        expect(agreement).toBeGreaterThanOrEqual(chance - 1e-9);
        expect(agreement).toBeLessThanOrEqual(1 + 1e-9);
        if (kappa !== null) expect(kappa).toBeLessThanOrEqual(1);
        expect(decisionConsistency(model, cut - 1).pass).toBeGreaterThan(pass);
      }),
    );
  });

  test('holds for a long test without running under', () => {
    const { pass, agreement } = decisionConsistency({ items: 400, alpha: 40, beta: 4 }, 320);
    expect(pass).toBeGreaterThan(0.9);
    expect(agreement).toBeGreaterThan(0.9);
    expect(agreement).toBeLessThan(1);
  });

  test('has no kappa when everyone passes', () => {
    const all = decisionConsistency({ items: 5, alpha: 2, beta: 2 }, 0);
    expect(all.pass).toBeCloseTo(1, 12);
    expect(all.agreement).toBeCloseTo(1, 12);
    expect(all.kappa).toBeNull();
  });

  test('is null when the totals are as tight as luck, or all at an end', () => {
    expect(fitBetaBinomial({ items: 10, mean: 5, variance: 2.5 })).toBeNull();
    expect(fitBetaBinomial({ items: 10, mean: 5, variance: 1 })).toBeNull();
    expect(fitBetaBinomial({ items: 10, mean: 5, variance: 0 })).toBeNull();
    expect(fitBetaBinomial({ items: 10, mean: 5, variance: 25 })).toBeNull();
    expect(fitBetaBinomial({ items: 10, mean: 0, variance: 1 })).toBeNull();
  });

  test('names what it refuses', () => {
    const model = { items: 10, alpha: 1, beta: 1 };
    expect(() => decisionConsistency(model, 11)).toThrow('cut must be a whole number from 0 to 10');
    expect(() => totalChances({ ...model, alpha: 0 })).toThrow('alpha must be a number');
    expect(() => totalChances({ ...model, items: 0 })).toThrow('items must be a whole number');
  });
});

describe("Livingston's index", () => {
  test('is the reliability at the mean and rises as the cut leaves it', () => {
    const test = { reliability: 0.7, mean: 6.6, variance: 5.84 };
    expect(livingstonIndex({ ...test, cut: 6.6 })).toBeCloseTo(0.7, 12);
    // (.7 * 5.84 + 4) / (5.84 + 4), by definition
    expect(livingstonIndex({ ...test, cut: 8.6 })).toBeCloseTo(8.088 / 9.84, 12);
    expect(livingstonIndex({ ...test, cut: 4.6 })).toBeCloseTo(8.088 / 9.84, 12);
    expect(livingstonIndex({ ...test, cut: 100 })).toBeGreaterThan(0.999);
  });

  test('equals the ratio of squared distances of true and seen scores from the cut', () => {
    // definition: ERIC ED127347; true scores 1..5 and errors +1, -1, each with each
    const cut = 4;
    const pairs = [1, 2, 3, 4, 5].flatMap((score) => [1, -1].map((slip) => [score, score + slip]));
    const from = (which: 0 | 1) =>
      pairs.reduce((sum, pair) => sum + ((pair[which] as number) - cut) ** 2, 0) / pairs.length;
    // variances 2 and 3, mean 3: reliability 2/3
    expect(livingstonIndex({ reliability: 2 / 3, mean: 3, variance: 3, cut })).toBeCloseTo(
      from(0) / from(1),
      12,
    );
  });

  test('is null when nothing varies and the cut is where all stand', () => {
    expect(livingstonIndex({ reliability: 0.5, mean: 5, variance: 0, cut: 5 })).toBeNull();
    expect(() => livingstonIndex({ reliability: 2, mean: 5, variance: 1, cut: 5 })).toThrow(
      'reliability must be',
    );
  });
});
