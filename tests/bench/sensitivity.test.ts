import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adviseMove,
  knifeEdge,
  measureBench,
  responsesOf,
  settingNow,
  transition,
} from '../../src/bench/index.ts';
import { pointAt } from '../../src/geometry/index.ts';
import { makeBench } from '../helpers/bench.ts';

const perMm = (measure: Parameters<typeof responsesOf>[1], setting: string, bench = makeBench()) =>
  responsesOf(bench, measure).find((one) => one.setting === setting)?.perMm;

describe('what moves a measure', () => {
  it('gives a guard a millimetre of clearance for each millimetre up, and nothing else', () => {
    expect(responsesOf(makeBench(), 'guard.clearance')).toEqual([
      { setting: 'guard.height', perMm: expect.closeTo(1, 9) },
    ]);
  });

  it('widens the gap at the table by the cosine of the edge there for each millimetre along (maths oracle)', () => {
    // d|P - A|/d(along) is the share of the unit vector from axis to P along x, P moving with the centre
    const bench = makeBench({ knife: { up: 0, along: 2 } });
    const edge = knifeEdge(bench.knife!, bench.arbor.depth);
    const foot = pointAt(edge.centre, edge.radius, edge.from);
    const away = foot.x / Math.hypot(foot.x, foot.y + bench.arbor.depth);
    expect(perMm('knife.gapAtTable', 'knife.along', bench)).toBeCloseTo(away, 6);
  });

  it('moves the tip drop by rise and fall only as the knife is carried', () => {
    expect(perMm('knife.tipDrop', 'arbor.depth')).toBeUndefined();
    const onFrame = makeBench({ knife: { carriedBy: 'frame' } });
    expect(perMm('knife.tipDrop', 'arbor.depth', onFrame)).toBeCloseTo(-1, 6);
    expect(perMm('knife.tipDrop', 'knife.up')).toBeCloseTo(-1, 6);
  });

  it('has nothing to say of a part that is off, or of a word', () => {
    expect(responsesOf(makeBench({ knife: null }), 'knife.gapMax')).toEqual([]);
    expect(responsesOf(makeBench(), 'underGuard')).toEqual([]);
    expect(settingNow(makeBench({ guard: null }), 'guard.height')).toBeNull();
  });
});

describe('advice', () => {
  it('brings the gap to what is wanted, when it is followed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 25, noNaN: true }),
        fc.double({ min: 4.6, max: 12, noNaN: true }),
        (along, wanted) => {
          const bench = makeBench({ knife: { along } });
          const advice = adviseMove(bench, 'knife.gapAtTable', 'knife.along', wanted);
          expect(advice).not.toBeNull();
          const open = transition(bench, { do: 'unlock', part: 'knife' }).bench;
          const to = advice?.to ?? 0;
          const moved = transition(open, { do: 'set', setting: 'knife.along', to }).bench;
          expect(measureBench(moved)['knife.gapAtTable']).toBeCloseTo(wanted, 5);
          expect((advice?.by ?? 0) + along).toBeCloseTo(to, 9);
        },
      ),
    );
  });

  it('says no when a setting cannot do it', () => {
    expect(adviseMove(makeBench(), 'knife.gapAtTable', 'guard.height', 5)).toBeNull();
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', -500)).toBeNull();
    expect(adviseMove(makeBench({ knife: null }), 'knife.gapMax', 'knife.along', 5)).toBeNull();
  });
});
