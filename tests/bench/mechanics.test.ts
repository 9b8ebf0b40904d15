import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ASSUMED_CUT,
  bindingOf,
  cutOfBench,
  estimateThrow,
  handToBlade,
  measureBench,
  nearestHand,
  pushBackShare,
  raiseThrough,
  supportOf,
} from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';

describe('the cut of a bench', () => {
  it('agrees with the worked row of R 200, axis 80 down, 50 mm stock (maths oracle)', () => {
    const cut = cutOfBench(
      makeBench({
        blade: { teeth: 40 },
        arbor: { depth: 80 },
        knife: null,
        // 0.2 mm a tooth at 3000 rpm with 40 teeth
        job: { fed: 24 },
      }),
    );
    expect(cut?.bite).toBeCloseTo(0.2, 9);
    expect(cut?.entry).toBeCloseTo(49.4584, 4);
    expect(cut?.exit).toBeCloseTo(66.4218, 4);
    expect(cut?.teethInCut).toBeCloseTo(1.8848, 4);
    expect(cut?.chip.mean).toBeCloseTo(0.1689, 4);
    expect(cut?.rubs).toBe(false);
  });

  it('gives the entry angle the measures give, and the rim speed', () => {
    const bench = makeBench();
    const measures = measureBench(bench);
    expect(cutOfBench(bench)?.entry).toBeCloseTo(measures['blade.entryAngle'] as number, 9);
    expect(cutOfBench(bench)?.rimSpeed).toBeCloseTo(measures['blade.rimSpeed'] as number, 9);
    expect(cutOfBench(bench)?.teethInCut).toBeCloseTo(measures['blade.teethInCut'] as number, 9);
  });

  it('shares the push-back as its slow twin does, a sum over the arc', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (low, share) => {
          const R = 200;
          const depth = low * R;
          const stock = share * (R - depth);
          const entry = Math.acos((depth + stock) / R);
          const exit = Math.acos(depth / R);
          let back = 0;
          let all = 0;
          for (let i = 0; i < 2000; i++) {
            const angle = entry + ((exit - entry) * (i + 0.5)) / 2000;
            back += Math.sin(angle) * Math.cos(angle);
            all += Math.sin(angle);
          }
          expect(pushBackShare(R, depth, stock)).toBeCloseTo(back / all, 5);
        },
      ),
    );
  });

  it('cuts more steeply, with fewer teeth, a thicker chip and less push-back as the blade is raised', () => {
    const curve = raiseThrough(makeBench(), 60, 13);
    expect(curve).toHaveLength(13);
    expect(curve[0]?.aboveStock).toBeCloseTo(0, 9);
    expect(curve.at(-1)?.aboveStock).toBeCloseTo(60, 9);
    for (const [i, { cut }] of curve.entries()) {
      const next = curve[i + 1]?.cut;
      if (next === undefined) continue;
      expect(next.entry).toBeGreaterThan(cut.entry);
      expect(next.teethInCut).toBeLessThan(cut.teethInCut);
      expect(next.chip.mean).toBeGreaterThan(cut.chip.mean);
      expect(next.pushBackShare).toBeLessThan(cut.pushBackShare);
    }
  });

  it('rubs when fed too slowly, sooner with a dull edge, and cuts nothing when it stands still', () => {
    const slow = { job: { fed: 4 } };
    const dull = { ...slow, blade: { condition: { sharpness: 'dull' as const } } };
    const mean = cutOfBench(makeBench(slow))?.chip.mean ?? 0;
    expect(mean).toBeLessThan(ASSUMED_CUT.thinnestChip);
    expect(cutOfBench(makeBench(slow))?.rubs).toBe(true);
    expect(cutOfBench(makeBench({ job: { fed: 14 } }))?.rubs).toBe(false);
    expect(cutOfBench(makeBench({ ...dull, job: { fed: 14 } }))?.rubs).toBe(true);
    expect(cutOfBench(makeBench({ job: { fed: 0 } }))).toBeNull();
  });
});

describe('binding', () => {
  it('never grips the plate behind a knife thicker than it, however far the kerf closes', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (closing) => {
        expect(bindingOf(makeBench(), { closing }).grips).toBe(false);
      }),
    );
  });

  it('grips a plate behind a knife thinner than it, and with no knife at all', () => {
    const thin = bindingOf(makeBench({ knife: { thickness: 2.4 } }), { closing: 3 });
    expect(thin.intoPlate).toBeCloseTo(0.4, 9);
    expect(thin.grips).toBe(true);
    const none = bindingOf(makeBench({ knife: null }), { closing: 1.5 });
    // plate 2.8 in a kerf of 4.2: gripped past 1.4
    expect(none.intoPlate).toBeCloseTo(0.1, 9);
    expect(bindingOf(makeBench({ knife: null }), { closing: 1.4 }).grips).toBe(false);
  });

  it('lifts on the rear teeth with a closing fence and no knife, and is held off by a true one', () => {
    const closing = { fence: { toe: -2 } };
    expect(bindingOf(makeBench({ ...closing, knife: null }), { closing: 0 }).lifts).toBe(true);
    expect(bindingOf(makeBench(closing), { closing: 0 }).lifts).toBe(false);
    expect(bindingOf(makeBench({ ...closing, knife: { play: 2 } }), { closing: 0 }).lifts).toBe(
      true,
    );
    expect(bindingOf(makeBench({ fence: { toe: 2 }, knife: null }), { closing: 0 }).lifts).toBe(
      false,
    );
  });
});

describe('the throw, as an estimate', () => {
  const bound = makeBench({ knife: null, people: { operator: { x: -800, z: 60 } } });

  it('predicts none when nothing binds, and says so by null', () => {
    expect(estimateThrow(makeBench(), { closing: 5 })).toBeNull();
  });

  it('never exceeds the rim speed, and is the same every time', () => {
    const rim = measureBench(bound)['blade.rimSpeed'] as number;
    const first = estimateThrow(bound, { closing: 3 });
    expect(first?.speed).toBeLessThan(rim);
    expect(first?.speed).toBeGreaterThan(0);
    expect(estimateThrow(bound, { closing: 3 })).toEqual(first);
  });

  it('weighs the piece: 1800 x 150 x 50 mm at 480 kg/m3 is 6.48 kg (maths oracle)', () => {
    expect(estimateThrow(bound, { closing: 3 })?.mass).toBeCloseTo(6.48, 9);
  });

  it('reaches somebody in the strip, and nobody standing out of it', () => {
    const hit = estimateThrow(bound, { closing: 3 });
    expect(hit?.reaches?.after).toBeCloseTo(800 / (hit?.speed ?? 1), 9);
    const aside = makeBench({ knife: null, people: { operator: { x: -800, z: -250 } } });
    expect(estimateThrow(aside, { closing: 3 })?.reaches).toBeNull();
  });
});

describe('support and reach', () => {
  it('tips a piece longer than twice the table behind the teeth', () => {
    const half = Math.sqrt(200 ** 2 - 110 ** 2);
    const length = 2 * (1250 - half);
    expect(supportOf(makeBench({ job: { stock: { length: length - 1 } } })).needsSupport).toBe(
      false,
    );
    const long = supportOf(makeBench({ job: { stock: { length: length + 200 } } }));
    expect(long).toMatchObject({ needsSupport: true });
    expect(long.tipsBy).toBeCloseTo(100, 6);
    expect(long.tipsBy).toBeCloseTo(
      measureBench(makeBench({ job: { stock: { length: length + 200 } } }))[
        'stock.tipsBy'
      ] as number,
      9,
    );
  });

  it('keeps the hand a stick away for the last 300 mm, and lets it in without one', () => {
    const bench = makeBench();
    expect(handToBlade(bench, 301)).toBe(301);
    expect(handToBlade(bench, 300)).toBe(750);
    expect(handToBlade(bench, 0)).toBe(450);
    expect(nearestHand(bench)).toBe(300);
    expect(nearestHand(makeBench({ people: { pushStick: null } }))).toBe(0);
  });

  it('finds the nearest hand its slow twin finds, step by step through the cut', () => {
    const stick = fc.record({
      length: fc.integer({ min: 100, max: 900 }),
      usedForLast: fc.integer({ min: 1, max: 900 }),
    });
    fc.assert(
      fc.property(stick, (pushStick) => {
        const bench = makeBench({ people: { pushStick } });
        let least = Number.POSITIVE_INFINITY;
        for (let left = 0; left <= 1800; left++) least = Math.min(least, handToBlade(bench, left));
        // the twin steps in whole millimetres past the moment the stick is taken up
        expect(Math.abs(nearestHand(bench) - least)).toBeLessThanOrEqual(1);
      }),
    );
  });
});
