import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS, readInstrument, takingsOf } from '../../src/bench/index.ts';
import { saySettling, settlesWith } from '../../src/limits/index.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { judgeOne } from '../helpers/rules.ts';

/** The decision rule is that of ISO 14253-1; the uncertainties of the instruments are common practice, no source. */

const gap = (value: number, uncertainty = 0.5) =>
  judgeOne('gb.knife.gap', knifeAround(value), uncertainty);

describe('what would settle a setting too close to call', () => {
  test('is the coarsest instrument that is fine enough', () => {
    // 0.3 mm from the limit of 8: not a rule (0.5), but feelers (0.05)
    expect(settlesWith(gap(7.7))).toEqual({ instrument: 'feeler', uncertainty: 0.05 });
    // 2 mm off, measured with something very coarse: a rule is enough
    expect(settlesWith(gap(6, 3))).toEqual({ instrument: 'rule', uncertainty: 0.5 });
  });

  test('is nothing where the verdict is settled', () => {
    expect(settlesWith(gap(6))).toBeNull();
    expect(settlesWith(gap(9))).toBeNull();
    expect(saySettling(gap(6), 'mm')).toBeNull();
  });

  test('is nothing at the limit itself, and it is said what to do', () => {
    expect(settlesWith(gap(7.96))).toBeNull();
    expect(saySettling(gap(7.96), 'mm')).toBe(
      'No instrument here would settle it: it has to be further inside the limit.',
    );
  });

  test('passes over an instrument that cannot take so long a length', () => {
    // feelers end at 25 mm
    const far = judgeOne('hk.knife.gap', knifeAround(14.8), 0.5);
    expect(settlesWith(far)?.instrument).toBe('feeler');
    expect(takingsOf('knife.gapMax', 26).map(({ instrument }) => instrument)).toEqual(['rule']);
    expect(takingsOf('stick.length', 1001)).toEqual([]);
  });

  test('adds two readings in quadrature (JCGM 100:2008, 5.1.2)', () => {
    const [calliper] = takingsOf('knife.overPlate', 0.3);
    expect(calliper?.uncertainty).toBeCloseTo(Math.hypot(0.05, 0.05), 12);
    const thin = judgeOne('gb.knife.thicker', { knife: { thickness: 2.9 } }, 0.5);
    expect(settlesWith(thin)).toMatchObject({ instrument: 'calliper' });
    expect(saySettling(thin, 'mm')).toBe('Calliper (0.07 mm either way) would settle it.');
    expect(saySettling(thin, 'inch')).toBe('Calliper (0.003 in either way) would settle it.');
  });

  test('can be the dial gauge, where nothing coarser is fine enough', () => {
    const fence = judgeOne('practice.fence.parallel', { fence: { toe: 0.05 } }, 0.5);
    expect(settlesWith(fence)?.instrument).toBe('dial');
  });

  test('is nothing for a measure nobody can lay an instrument to', () => {
    const radius = judgeOne('hk.knife.radius', { arbor: { largestBlade: 408.2 } }, 0.5);
    expect(radius.verdict).toBe('too-close');
    expect(settlesWith(radius)).toBeNull();
  });

  test('settles the verdict it was named for, whatever the reading', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 24, noNaN: true }), (value) => {
        const open = gap(value);
        const better = settlesWith(open);
        fc.pre(better !== null);
        expect(gap(value, better?.uncertainty).verdict).not.toBe('too-close');
      }),
      { seed: 41 },
    );
  });
});

describe('the dial gauge', () => {
  test('shows hundredths and reaches ten millimetres', () => {
    const { dial } = INSTRUMENTS;
    expect(readInstrument(dial, 1.2349)).toBe(1.23);
    expect(readInstrument(dial, -0.018)).toBe(-0.02);
    expect(readInstrument(dial, 10.1)).toBeNull();
  });

  test.each(Object.values(INSTRUMENTS))('$title never claims to be better than it reads', (one) => {
    expect(one.uncertainty).toBeGreaterThanOrEqual(one.resolution / 2);
    expect(one.longest).toBeGreaterThan(one.resolution);
  });
});
