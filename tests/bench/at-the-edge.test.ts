import { describe, expect, it } from 'vitest';
import {
  addLevels,
  bindingOf,
  INSTRUMENTS,
  readBench,
  readInstrument,
  runDownTime,
  supportOf,
} from '../../src/bench/index.ts';
import { makeBench, makeBenchFile } from '../helpers/bench.ts';

/** Where one thing turns into another, to the last bit. */

describe('at the edge', () => {
  it('a piece balanced on the table edge does not tip yet (3-4-5 triangle)', () => {
    // radius 250, axis 150 down: half-chord 200; 200 + 1000 reaches just to the edge at 1200
    const balanced = makeBench({
      blade: { diameter: 500 },
      arbor: { depth: 150, largestBlade: 500 },
      knife: null,
      table: { outfeed: 1200 },
      job: { stock: { length: 2000 } },
    });
    expect(supportOf(balanced)).toEqual({ tipsBy: 0, tipsWithLeft: null, needsSupport: false });
  });

  it('work steered at all onto the rear teeth is lifted where no knife holds it off', () => {
    const steered = makeBench({ knife: null, fence: { toe: -0.2 } });
    expect(bindingOf(steered, { closing: 0 }).lifts).toBe(true);
    expect(bindingOf(makeBench({ knife: null }), { closing: 0 }).lifts).toBe(false);
  });

  it('a reading just under nothing shows as 0, never as less than nothing', () => {
    expect(readInstrument(INSTRUMENTS.rule, -0.1)).toBe(0);
  });

  it('a stock kind may be one letter and not none', () => {
    const kind = (name: string) => readBench(makeBenchFile({ job: { stock: { kind: name } } }));
    expect(kind('x').ok).toBe(true);
    expect(kind('').ok).toBe(false);
  });

  it('two sources of 0 dB sound as 3.01 (10 log 2)', () => {
    expect(addLevels([0, 0])).toBeCloseTo(3.0103, 4);
  });
});

describe('run-down with hardly any steady drag', () => {
  it('under a drag that grows with speed takes (I / b) ln(1 + b w / T) (maths oracle)', () => {
    const time = runDownTime(0.1, 300, { steady: 0.001, viscous: 0.01 });
    expect(time).toBeCloseTo(10 * Math.log(3001), 9);
  });

  it('under one with its square takes (I / sqrt(T c)) atan(w sqrt(c / T)) (maths oracle)', () => {
    const time = runDownTime(0.1, 300, { steady: 0.001, windage: 0.001 });
    expect(time).toBeCloseTo(100 * Math.atan(300), 9);
  });
});
