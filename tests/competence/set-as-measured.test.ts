import { describe, expect, it } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import { setAsMeasured } from '../../src/competence/index.ts';
import { makeBench } from '../helpers/bench.ts';

const blade = { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 };
const setting = (measure: string, value: number, unit = 'mm') => ({ measure, value, unit });

describe('the bench drawn as it was measured', () => {
  it.each([
    [5, 2],
    [7.9375, 10],
    [12, -3],
    [3, 25],
  ])('measures %d mm at the table and %d mm of drop, as was written down', (gap, drop) => {
    const set = setAsMeasured(makeBench(), {
      blade,
      settings: [
        setting('knife.gapAtTable', gap),
        setting('knife.tipDrop', drop),
        setting('knife.overPlate', 0.4),
        setting('guard.clearance', 8),
      ],
    });
    const measures = measureBench(set);
    expect(measures['knife.gapAtTable']).toBeCloseTo(gap, 2);
    expect(measures['knife.tipDrop']).toBeCloseTo(drop, 2);
    expect(measures['knife.overPlate']).toBeCloseTo(0.4, 9);
    expect(measures['guard.clearance']).toBeCloseTo(8, 9);
  });

  it('reads inches as inches', () => {
    const set = setAsMeasured(makeBench(), {
      blade,
      settings: [setting('knife.gapAtTable', 0.25, 'inch')],
    });
    expect(measureBench(set)['knife.gapAtTable']).toBeCloseTo(6.35, 2);
  });

  it('falls back on the bench as registered when the figures give none', () => {
    const bench = makeBench();
    expect(setAsMeasured(bench, { blade: { ...blade, diameter: 100 }, settings: [] })).toBe(bench);
    const inside = { blade, settings: [setting('knife.gapAtTable', -300)] };
    expect(setAsMeasured(bench, inside)).toBe(bench);
  });
});
