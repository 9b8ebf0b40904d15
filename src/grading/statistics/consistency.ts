import { requireNumber, requireWhole } from './arguments.ts';
import { kuderRichardson21 } from './reliability.ts';

/** True scores spread as a beta distribution, errors binomial: totals are beta-binomial. */
export type BetaBinomial = {
  readonly items: number;
  readonly alpha: number;
  readonly beta: number;
};

export type Consistency = {
  /** chance that an attempt passes */
  readonly pass: number;
  /** p0: chance that two attempts on equal tests end alike */
  readonly agreement: number;
  /** what p0 would be by luck alone */
  readonly chance: number;
  /** (p0 - chance) / (1 - chance); null when everyone passes or nobody does */
  readonly kappa: number | null;
};

/**
 * Fits the model to the mean and variance (divisor n) of the totals by KR-21: alpha = mean
 * (1/KR21 - 1), beta = items (1/KR21 - 1) - alpha (Keats and Lord 1962; Huynh 1976). Null when
 * KR-21 is not between 0 and 1, or the mean is at an end: totals as tight as luck tell nothing.
 */
export function fitBetaBinomial(totals: {
  readonly items: number;
  readonly mean: number;
  readonly variance: number;
}): BetaBinomial | null {
  const reliability = kuderRichardson21(totals);
  if (reliability === null || reliability <= 0 || reliability >= 1) return null;
  const tightness = 1 / reliability - 1;
  const alpha = totals.mean * tightness;
  const beta = totals.items * tightness - alpha;
  return alpha > 0 && beta > 0 ? { items: totals.items, alpha, beta } : null;
}

/** ln of start (start + 1) ... for 0 to count factors. */
function logRising(start: number, count: number): number[] {
  const logs = [0];
  for (let i = 0; i < count; i += 1) logs.push((logs[i] as number) + Math.log(start + i));
  return logs;
}

const at = (logs: readonly number[], i: number): number => logs[i] as number;

function logChoose(items: number): number[] {
  const factorial = logRising(1, items);
  return factorial.map((log, x) => at(factorial, items) - log - at(factorial, items - x));
}

function checkModel({ items, alpha, beta }: BetaBinomial): void {
  requireWhole('items', items, 1, 2000);
  requireNumber('alpha', alpha, Number.MIN_VALUE, Number.MAX_VALUE);
  requireNumber('beta', beta, Number.MIN_VALUE, Number.MAX_VALUE);
}

/** Chance of every total, 0 to items; they add to 1. */
export function totalChances(model: BetaBinomial): readonly number[] {
  checkModel(model);
  const { items, alpha, beta } = model;
  const choose = logChoose(items);
  const right = logRising(alpha, items);
  const wrong = logRising(beta, items);
  const all = at(logRising(alpha + beta, items), items);
  return choose.map((log, x) => Math.exp(log + at(right, x) + at(wrong, items - x) - all));
}

/**
 * Decision consistency from one sitting (Huynh 1976). cut: the lowest total that passes, a whole
 * number 0 to items. Two attempts share a true score, so their joint chance is
 * C(n,x) C(n,y) B(alpha + x + y, beta + 2n - x - y) / B(alpha, beta).
 */
export function decisionConsistency(model: BetaBinomial, cut: number): Consistency {
  checkModel(model);
  const { items, alpha, beta } = model;
  requireWhole('cut', cut, 0, items);
  const choose = logChoose(items);
  const right = logRising(alpha, 2 * items);
  const wrong = logRising(beta, 2 * items);
  const all = at(logRising(alpha + beta, 2 * items), 2 * items);
  let agreement = 0;
  for (let x = 0; x <= items; x += 1) {
    for (let y = 0; y <= items; y += 1) {
      if (x >= cut !== y >= cut) continue;
      const both = at(right, x + y) + at(wrong, 2 * items - x - y) - all;
      agreement += Math.exp(at(choose, x) + at(choose, y) + both);
    }
  }
  const pass = totalChances(model)
    .slice(cut)
    .reduce((sum, chance) => sum + chance, 0);
  const chance = pass ** 2 + (1 - pass) ** 2;
  const room = 1 - chance;
  return {
    pass,
    agreement,
    chance,
    kappa: room > 1e-12 ? (agreement - chance) / room : null,
  };
}

/**
 * Livingston's index for a test with a cut (Livingston 1972; the definition, squared distances
 * from the cut in place of the mean, is read in ERIC ED127347, the formula from memory):
 * (r v + (mean - cut)^2) / (v + (mean - cut)^2). It equals r when the cut is the mean and rises to
 * 1 as the cut leaves it, so it says how sure the distance from the cut is, not how often two
 * attempts agree. variance with the divisor n; null when variance and distance are both 0.
 */
export function livingstonIndex(test: {
  readonly reliability: number;
  readonly mean: number;
  readonly variance: number;
  readonly cut: number;
}): number | null {
  requireNumber('reliability', test.reliability, -Number.MAX_VALUE, 1);
  requireNumber('variance', test.variance, 0, Number.MAX_VALUE);
  requireNumber('mean', test.mean, -Number.MAX_VALUE, Number.MAX_VALUE);
  requireNumber('cut', test.cut, -Number.MAX_VALUE, Number.MAX_VALUE);
  const distance = (test.mean - test.cut) ** 2;
  const whole = test.variance + distance;
  return whole === 0 ? null : (test.reliability * test.variance + distance) / whole;
}
