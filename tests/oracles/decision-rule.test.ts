import { describe } from 'vitest';
import { checkLimits, knifeAround, type LimitCase } from '../helpers/oracle-case.ts';

/**
 * ISO 14253-1, default decision rule: with uncertainty U a value is shown to conform only when it
 * lies inside the limit by U or more, and shown not to conform only when it lies outside by more.
 */
const rule = (
  says: string,
  gap: number,
  verdict: LimitCase['verdict'],
  uncertainty = 0.5,
): LimitCase => ({
  says,
  limit: 'gb.knife.gap',
  bench: knifeAround(gap),
  verdict,
  source: 'ISO 14253-1, limit 8, U as said',
  uncertainty,
});

describe('a knife gap read with a rule', () => {
  checkLimits([
    rule('7.4 with U 0.5', 7.4, 'within'),
    rule('7.5 with U 0.5, inside by exactly U,', 7.5, 'within'),
    rule('7.51 with U 0.5', 7.51, 'too-close'),
    rule('8.0 with U 0.5', 8, 'too-close'),
    rule('8.5 with U 0.5, outside by exactly U,', 8.5, 'too-close'),
    rule('8.51 with U 0.5', 8.51, 'outside'),
    rule('7.9 with feeler leaves, U 0.05,', 7.9, 'within', 0.05),
  ]);
});

describe('limits that leave the limit itself out, and limits that are no lengths', () => {
  checkLimits([
    {
      says: 'a knife thicker than the plate by exactly U 0.4',
      limit: 'gb.knife.thicker',
      bench: {},
      verdict: 'too-close',
      source: 'ISO 14253-1; HSE page, "thicker than"',
      uncertainty: 0.4,
    },
    {
      says: 'a knife exactly U 0.2 above the eu floor',
      limit: 'eu.knife.thicker',
      bench: {},
      verdict: 'within',
      source: 'ISO 14253-1; EN 1870-1 clause a, "at least"',
      uncertainty: 0.2,
    },
    {
      says: 'a run-down of 10.0 s, a time, with U 0.5 mm',
      limit: 'gb.arbor.stop',
      bench: { arbor: { runDown: 10 } },
      verdict: 'within',
      source: 'ISO 14253-1 applied to lengths only',
      uncertainty: 0.5,
    },
    {
      says: 'a size ratio of 0.6, no length, with U 0.5 mm',
      limit: 'gb.blade.small',
      bench: { arbor: { largestBlade: 400 / 0.6 } },
      verdict: 'within',
      source: 'ISO 14253-1 applied to lengths only',
      uncertainty: 0.5,
    },
  ]);
});
