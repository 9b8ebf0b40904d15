import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CONFIDENCE_EDGES,
  type Judgement,
  measureCalibration,
} from '../../../src/grading/index.ts';

const said = (confidence: number, ...results: (0 | 1)[]): Judgement[] =>
  results.map((result) => ({ confidence, right: result === 1 }));

const judgements = fc.array(
  fc.record({ confidence: fc.double({ min: 0, max: 1, noNaN: true }), right: fc.boolean() }),
  { minLength: 1, maxLength: 60 },
);
const LEVELS = [0.1, 0.3, 0.5, 0.7, 0.9];
const levelled = fc.array(
  fc.record({ confidence: fc.constantFrom(...LEVELS), right: fc.boolean() }),
  { minLength: 1, maxLength: 60 },
);

describe('calibration of confidence', () => {
  test('has a Brier score of .0375 for .1, .9, .8, .3 against 0, 1, 1, 0', () => {
    // scikit-learn's example for brier_score_loss (from memory; .01 + .01 + .04 + .09 over 4)
    const found = measureCalibration([
      ...said(0.1, 0),
      ...said(0.9, 1),
      ...said(0.8, 1),
      ...said(0.3, 0),
    ]);
    expect(found?.brier).toBeCloseTo(0.0375, 12);
  });

  test('calls nine in ten sure and half right over-confident by .4', () => {
    // by hand: Brier (5 * .01 + 5 * .81) / 10 = .41 = .16 - 0 + .25
    const found = measureCalibration(said(0.9, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0));
    expect(found?.overconfidence).toBeCloseTo(0.4, 12);
    expect(found?.brier).toBeCloseTo(0.41, 12);
    expect(found?.miscalibration).toBeCloseTo(0.16, 12);
    expect(found?.resolution).toBeCloseTo(0, 12);
    expect(found?.uncertainty).toBeCloseTo(0.25, 12);
  });

  test('finds no gap where shares match confidence, and full resolution where all is known', () => {
    const fair = measureCalibration([...said(0.75, 1, 1, 1, 0), ...said(0.25, 0, 0, 0, 1)]);
    expect(fair?.miscalibration).toBeCloseTo(0, 12);
    expect(fair?.overconfidence).toBeCloseTo(0, 12);
    expect(fair?.resolution).toBeCloseTo(0.0625, 12);
    const sure = measureCalibration([...said(1, 1, 1), ...said(0, 0, 0)]);
    expect(sure).toMatchObject({ brier: 0, miscalibration: 0, resolution: 0.25 });
  });

  test('splits Brier into its three parts exactly when a bin holds one level', () => {
    fc.assert(
      fc.property(levelled, (list) => {
        const found = measureCalibration(list);
        const parts =
          (found?.miscalibration ?? 0) - (found?.resolution ?? 0) + (found?.uncertainty ?? 0);
        expect(found?.brier).toBeCloseTo(parts, 10);
      }),
    );
  });

  test('puts every finding in one bin, an edge in the upper one and 1 in the last', () => {
    fc.assert(
      fc.property(judgements, (list) => {
        const found = measureCalibration(list);
        expect(found?.bins.reduce((sum, { count }) => sum + count, 0)).toBe(list.length);
        for (const bin of found?.bins ?? []) {
          if (bin.confidence === null || bin.share === null) {
            expect(bin.count).toBe(0);
            continue;
          }
          expect(bin.confidence).toBeGreaterThanOrEqual(bin.low);
          expect(bin.confidence).toBeLessThanOrEqual(bin.high);
          expect(bin.interval.low).toBeLessThanOrEqual(bin.share);
          expect(bin.interval.high).toBeGreaterThanOrEqual(bin.share);
        }
      }),
    );
    const counts = measureCalibration([...said(0.2, 1), ...said(1, 1), ...said(0, 1)])?.bins;
    expect(counts?.map(({ count }) => count)).toEqual([1, 1, 0, 0, 1]);
  });

  test('keeps its figures in range, and gains nothing by a shifted confidence', () => {
    fc.assert(
      fc.property(judgements, (list) => {
        const found = measureCalibration(list);
        expect(found?.brier).toBeGreaterThanOrEqual(0);
        expect(found?.brier).toBeLessThanOrEqual(1);
        expect(Math.abs(found?.overconfidence ?? 2)).toBeLessThanOrEqual(1);
        // the score is proper: the share itself, said throughout, is never beaten by one number
        const share = list.filter(({ right }) => right).length / list.length;
        const flat = (confidence: number) =>
          measureCalibration(list.map(({ right }) => ({ confidence, right })))?.brier ?? 2;
        expect(flat(share)).toBeLessThanOrEqual(flat(Math.min(1, share + 0.1)) + 1e-12);
        expect(flat(share)).toBeCloseTo(share * (1 - share), 10);
      }),
    );
  });

  test('is null without a finding, and names what it refuses', () => {
    expect(measureCalibration([])).toBeNull();
    expect(() => measureCalibration(said(1.5, 1))).toThrow('confidence must be a number from 0');
    expect(() => measureCalibration(said(0.5, 1), [0, 0.5])).toThrow('edges must rise from 0 to 1');
    expect(() => measureCalibration(said(0.5, 1), [0, 0.6, 0.6, 1])).toThrow('edges must rise');
    expect(CONFIDENCE_EDGES).toHaveLength(6);
  });
});
