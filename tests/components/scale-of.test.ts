import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scaleOf } from '../../src/components/attempt/scale-of.ts';

// to a twentieth of a millimetre, as the finest instrument reads
const length = fc.integer({ min: -10_000, max: 10_000 }).map((steps) => steps / 20);

describe('the drawn scale of a limit', () => {
  it('draws nothing without an end', () => {
    expect(scaleOf(5, {})).toBeNull();
  });

  it('keeps everything on the scale and in the order of the numbers (seed 20260101)', () => {
    fc.assert(
      fc.property(length, length, length, (value, a, b) => {
        const [min, max] = [Math.min(a, b), Math.max(a, b)];
        const scale = scaleOf(value, { min, max });
        expect(scale).not.toBeNull();
        if (scale === null) return;
        for (const share of [scale.value, ...scale.ends]) {
          expect(share).toBeGreaterThan(0);
          expect(share).toBeLessThan(1);
        }
        expect(scale.value <= scale.inside.to).toBe(value <= max);
        expect(scale.value >= scale.inside.from).toBe(value >= min);
      }),
      { seed: 20260101 },
    );
  });

  it('leaves the side without an end open', () => {
    expect(scaleOf(3, { max: 8 })?.inside.from).toBe(0);
    expect(scaleOf(30, { min: 8 })?.inside.to).toBe(1);
  });
});
