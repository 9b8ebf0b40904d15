import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ASSUMED_CLOSING,
  type Bench,
  closingOf,
  cutShort,
  estimateThrow,
  leadAt,
  readBench,
  rimSpeed,
  type TrialCut,
  throwStrip,
  trialCut,
  whoIsInStrip,
} from '../../src/bench/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { anyBenchFile } from '../helpers/random-bench.ts';

/**
 * The trial cut. Oracles follow from the definitions: the sound bench has a half-chord of
 * sqrt(200^2 - 110^2) = 167.0329 mm at the table and feeds 8 m/min = 133.3333 mm/s from 150 mm
 * before the front teeth. The amounts a kerf closes by are assumptions and are taken from them.
 */

const HALF = Math.sqrt(200 ** 2 - 110 ** 2);
const SPEED = 8000 / 60;
const cutOf = (over: BenchOverrides = {}): TrialCut => {
  const cut = trialCut(makeBench(over));
  if (cut === null) throw new Error('nothing was fed');
  return cut;
};
const kinds = (cut: TrialCut) => cut.moments.map(({ kind }) => kind);
const leadOf = (cut: TrialCut, kind: string) => cut.moments.find((one) => one.kind === kind)?.lead;

describe('a cut on a sound bench', () => {
  const cut = cutOf();
  it('goes through smoothly: in, past the rear teeth, out', () => {
    expect(cut.outcome).toBe('smooth');
    expect(kinds(cut)).toEqual(['enters', 'reaches-rear', 'leaves']);
    expect(cut.thrown).toBeNull();
  });

  it('tells when, by the feed: way over speed', () => {
    const at = cut.moments.map((one) => one.at);
    expect(at[0]).toBeCloseTo(150 / SPEED, 9);
    expect(at[1]).toBeCloseTo((150 + 2 * HALF) / SPEED, 9);
    // through once its trailing end is past the rear teeth: 1800 mm and two half-chords on
    expect(at[2]).toBeCloseTo((150 + 2 * HALF + 1800) / SPEED, 9);
    expect(cut.lasts).toBe(at[2]);
  });

  it('brings the leading end where each moment says it is', () => {
    const bench = makeBench();
    for (const { at, lead } of cut.moments) expect(leadAt(cut, bench, at)).toBeCloseTo(lead, 6);
    expect(leadAt(cut, bench, 0)).toBeCloseTo(-HALF - 150, 9);
    expect(leadAt(cut, bench, -5)).toBe(leadAt(cut, bench, 0));
    expect(leadAt(cut, bench, cut.lasts + 9)).toBe(leadAt(cut, bench, cut.lasts));
  });

  it('is nothing where the job is not fed', () => {
    expect(trialCut(makeBench({ job: { fed: 0 } }))).toBeNull();
  });
});

describe('a kerf that closes', () => {
  it('is assumed from what the stock shows, and said to be', () => {
    const closing = (stock: BenchOverrides['job']) => closingOf(makeBench({ job: stock ?? {} }));
    expect(closing({}).from).toEqual(['solid']);
    expect(closing({ stock: { kind: 'birch plywood' } })).toMatchObject({
      full: 0,
      from: ['sheet'],
    });
    expect(closing({ stock: { kind: 'sheet', moisture: 90 } }).from).toEqual(['sheet']);
    expect(closing({ stock: { shape: 'twisted', moisture: 20 } }).from).toEqual([
      'solid',
      'twisted',
    ]);
    const wet = closing({ stock: { shape: 'cupped', moisture: 20.5 } });
    expect(wet.from).toEqual(['solid', 'cupped', 'wet']);
    expect(wet.full).toBeCloseTo(
      ASSUMED_CLOSING.solid + ASSUMED_CLOSING.cupped + ASSUMED_CLOSING.wet,
      9,
    );
    // across the grain only the shape counts
    expect(closing({ cut: 'crosscut', stock: { shape: 'bowed', moisture: 60 } }).from).toEqual([
      'bowed',
    ]);
    expect(closing({ stock: { shape: 'round' } }).from).toEqual(['solid']);
  });

  it('does not close where wood is left above the blade', () => {
    // the blade stands 90 mm above the table
    const at = (thickness: number) =>
      closingOf(makeBench({ job: { stock: { thickness, shape: 'twisted' } } }));
    expect(at(90)).toMatchObject({ held: false, full: 2 });
    expect(at(91)).toMatchObject({ held: true, full: 0 });
    expect(
      cutOf({ knife: null, job: { stock: { thickness: 91, shape: 'twisted' }, fed: 12 } }).outcome,
    ).toBe('smooth');
  });

  // plate 2.8, kerf 4.2: 1.4 mm to spare; twisted dry wood is assumed to close 2.0 over 1800 mm
  const TWISTED: BenchOverrides = { job: { stock: { shape: 'twisted' } } };

  it('grips a plate with no knife behind it once as much has closed as there was to spare, and throws', () => {
    const cut = cutOf({ ...TWISTED, knife: null });
    expect(cut.outcome).toBe('thrown');
    // 1.4 of 2.0 closed: 0.7 of 1800 = 1260 mm of kerf, counted from the front teeth
    expect(leadOf(cut, 'grips')).toBeCloseTo(1260 - HALF, 6);
  });

  it('grips no sooner than the leading end is past the rear teeth', () => {
    // 600 mm long: 420 mm of kerf would do, and the rear teeth are reached at 334
    const short = cutOf({ knife: null, job: { stock: { shape: 'twisted', length: 400 } } });
    expect(leadOf(short, 'grips')).toBeCloseTo(HALF, 6);
    expect(kinds(short)).toEqual(['enters', 'reaches-rear', 'grips', 'thrown']);
  });

  it('sticks where a knife thinner than the plate stands there, and goes no further', () => {
    const cut = cutOf({ ...TWISTED, knife: { thickness: 2.4 } });
    expect(cut.outcome).toBe('binding');
    expect(kinds(cut).at(-1)).toBe('grips');
    expect(cut.lasts).toBe(cut.moments.at(-1)?.at);
    expect(cut.thrown).toBeNull();
  });

  it('goes through where the knife is thicker than the plate', () => {
    expect(cutOf(TWISTED).outcome).toBe('smooth');
  });
});

describe('work thrown back', () => {
  const TOE_IN: BenchOverrides = { knife: null, fence: { toe: -1 } };
  const bench = makeBench(TOE_IN);
  const cut = cutOf(TOE_IN);

  it('is lifted as its leading end comes to the rear teeth', () => {
    expect(cut.outcome).toBe('thrown');
    expect(kinds(cut)).toEqual(['enters', 'reaches-rear', 'lifts', 'thrown']);
    expect(leadOf(cut, 'lifts')).toBeCloseTo(HALF, 9);
  });

  it('goes as fast as the estimate says, and leaves by its strip', () => {
    const estimate = estimateThrow(bench, { closing: cut.closing.full });
    expect(cut.thrown?.speed).toBe(estimate?.speed);
    // v M/(M + 2 m) with the 2.8 mm disc of mechanics.md: M 2.7466 kg, rim 62.832 m/s, and
    // m = 1800 x 150 x 50 mm at 480 kg/m3 = 6.48 kg
    expect(cut.thrown?.speed).toBeCloseTo((62.8319 * 2.74655) / (2.74655 + 2 * 6.48), 2);
    expect(cut.thrown?.strip).toEqual({ from: -2.1, to: 152.1 });
  });

  it('is taken in the time a rim tooth needs to rise through it', () => {
    const [, , lifts, thrown] = cut.moments;
    expect((thrown?.at ?? 0) - (lifts?.at ?? 0)).toBeCloseTo(0.05 / rimSpeed(400, 3000), 9);
  });

  it('flies back over 4 m from where it was', () => {
    const { thrown, lasts } = cut;
    if (thrown === null) throw new Error('not thrown');
    expect(leadAt(cut, bench, lasts)).toBeCloseTo(thrown.lead - 4000, 6);
    expect(leadAt(cut, bench, (thrown.at + lasts) / 2)).toBeCloseTo(thrown.lead - 2000, 6);
    expect(leadAt(cut, bench, thrown.at)).toBeCloseTo(thrown.lead, 6);
  });

  it('is kept off the teeth by a knife in line, not by one that stands aside', () => {
    expect(cutOf({ fence: { toe: -1 } }).outcome).toBe('smooth');
    expect(cutOf({ fence: { toe: -1 }, knife: { lateral: 0.4 } }).outcome).toBe('thrown');
  });

  it('is not counted on being held by fingers', () => {
    for (const fingers of ['none', 'raised', 'resting'] as const) {
      expect(cutOf({ ...TOE_IN, guard: { fingers } }).outcome).toBe('thrown');
    }
  });

  it('is what comes of a fence used as a stop for a crosscut, once it is through', () => {
    const crosscut = (stop: 'none' | 'ahead' | 'fence') =>
      cutOf({ fence: { toe: -1 }, knife: null, job: { cut: 'crosscut', stop } });
    // with the mitre gauge the fence steers nothing
    expect(crosscut('none').outcome).toBe('smooth');
    expect(crosscut('ahead').outcome).toBe('smooth');
    expect(crosscut('fence').outcome).toBe('thrown');
    const trapped = cutOf({ job: { cut: 'crosscut', stop: 'fence' } });
    expect(kinds(trapped)).toEqual(['enters', 'reaches-rear', 'traps', 'thrown']);
    expect(leadOf(trapped, 'traps')).toBeCloseTo(1800 - HALF, 6);
  });
});

describe('burning, stalling, tipping', () => {
  it('burns where the mean chip is thinner than the edge bites', () => {
    // f = 8000/(3000 x 36) = 0.0741; mean f t / l, l = 200 (acos .55 - acos .8): 0.05369 mm (mechanics.md)
    expect(cutOf().cut.chip.mean).toBeCloseTo(0.05369, 5);
    expect(cutOf({ job: { fed: 7 } }).outcome).toBe('burning');
    expect(cutOf({ blade: { condition: { sharpness: 'dull' } } }).outcome).toBe('burning');
    expect(cutOf({ blade: { mounted: 'backwards' } }).outcome).toBe('burning');
  });

  it('burns once the whole thickness is in the cut', () => {
    const cut = cutOf({ job: { fed: 7 } });
    expect(leadOf(cut, 'burns')).toBeCloseTo(-Math.sqrt(200 ** 2 - 160 ** 2), 9);
    expect(kinds(cut)).toEqual(['enters', 'burns', 'reaches-rear', 'leaves']);
  });

  // kc 30 N/mm2 x 4.2 x 50 x 8 m/min / 60 = 840 W (mechanics.md: kc kerf t feed)
  it('stalls over twice the rating of the motor, and not at it', () => {
    expect(cutOf({ arbor: { motorPower: 420 } }).outcome).toBe('smooth');
    const stalled = cutOf({ arbor: { motorPower: 419 } });
    expect(stalled.outcome).toBe('stalled');
    expect(kinds(stalled)).toEqual(['enters', 'stalls']);
  });

  it('tips once its middle passes the end of the table, where nobody takes off', () => {
    const long: BenchOverrides = { job: { stock: { length: 3000 } } };
    const cut = cutOf(long);
    expect(leadOf(cut, 'tips')).toBe(1250 + 1500);
    expect(cut.outcome).toBe('smooth');
    const takeOff = { ...makeBench().people.operator, x: 1500 };
    expect(kinds(cutOf({ ...long, people: { takeOff } }))).not.toContain('tips');
    expect(kinds(cutOf())).not.toContain('tips');
  });
});

describe('stop pressed during the feed', () => {
  const TOE_IN: BenchOverrides = { knife: null, fence: { toe: -1 } };
  it('ends the cut there, with what had happened by then', () => {
    const cut = cutShort(cutOf(), 2);
    expect(cut).toMatchObject({ outcome: 'stopped', lasts: 2, thrown: null, estimate: null });
    expect(kinds(cut)).toEqual(['enters']);
    expect(leadAt(cut, makeBench(), 9)).toBeCloseTo(-HALF - 150 + 2 * SPEED, 9);
  });
  it('comes in time before the teeth take the work, and too late after', () => {
    const cut = cutOf(TOE_IN);
    const at = cut.thrown?.at ?? 0;
    expect(cutShort(cut, at - 0.01).outcome).toBe('stopped');
    expect(cutShort(cut, at)).toBe(cut);
  });
  it('is nothing when it was not pressed, or after the end', () => {
    const cut = cutOf();
    expect(cutShort(cut, null)).toBe(cut);
    expect(cutShort(cut, cut.lasts)).toBe(cut);
  });
});

describe('who stands in the strip', () => {
  const at = (x: number, z: number) => ({ x, z });
  it('is as wide as the way to the fence, or the piece where that is wider', () => {
    expect(throwStrip(makeBench())).toEqual({ from: -2.1, to: 152.1 });
    expect(throwStrip(makeBench({ fence: { face: 90 } }))).toEqual({ from: -2.1, to: 152.1 });
    expect(throwStrip(makeBench({ fence: { face: 200 } })).to).toBeCloseTo(202.1, 9);
  });
  it('names everybody on the operator side, edges included', () => {
    const who = (people: BenchOverrides['people']) =>
      whoIsInStrip(makeBench({ people: people ?? {} }));
    expect(who({})).toEqual([]);
    expect(who({ operator: at(-700, 152.1) })).toEqual(['operator']);
    expect(who({ operator: at(-700, -2.1) })).toEqual(['operator']);
    expect(who({ operator: at(-700, 152.2) })).toEqual([]);
    expect(who({ operator: at(0, 50) })).toEqual([]);
    const takeOff = { ...makeBench().people.operator, x: -3000, z: 10 };
    expect(who({ bystander: at(-9000, 100), takeOff })).toEqual(['takeOff', 'bystander']);
  });
});

describe('on any bench', () => {
  const benches = anyBenchFile
    .map((file) => readBench(file))
    .filter((read) => read.ok)
    .map((read) => (read as { bench: Bench }).bench);
  const fed = fc
    .tuple(
      benches,
      fc.record({
        shape: fc.constantFrom(
          'flat' as const,
          'bowed' as const,
          'cupped' as const,
          'twisted' as const,
        ),
        moisture: fc.double({ min: 0, max: 80, noNaN: true }),
        cut: fc.constantFrom('rip' as const, 'crosscut' as const, 'deep' as const),
        stop: fc.constantFrom('none' as const, 'fence' as const),
        toe: fc.double({ min: -3, max: 3, noNaN: true }),
      }),
    )
    .map(([bench, { shape, moisture, cut, stop, toe }]) => ({
      ...bench,
      fence: { ...bench.fence, toe },
      job: { ...bench.job, cut, stop, fed: 10, stock: { ...bench.job.stock, shape, moisture } },
    }));
  const check = (property: (bench: Bench, cut: TrialCut) => void) =>
    fc.assert(
      fc.property(fed, (bench) => {
        const cut = trialCut(bench);
        if (cut !== null) property(bench, cut);
      }),
      { numRuns: 300, seed: 4607 },
    );

  it('gives the same again for the same bench', () => {
    check((bench, cut) => expect(trialCut(structuredClone(bench))).toEqual(cut));
  });

  it('tells its moments in the order of time, none after the end', () => {
    check((_, cut) => {
      const times = cut.moments.map(({ at }) => at);
      expect(times).toEqual(times.toSorted((a, b) => a - b));
      expect(times[0]).toBeGreaterThan(0);
      expect(times.at(-1)).toBeLessThanOrEqual(cut.lasts);
    });
  });

  it('throws nothing faster than the rim', () => {
    check((bench, cut) => {
      const rim = rimSpeed(bench.blade.diameter, bench.arbor.speed);
      expect(cut.thrown?.speed ?? 0).toBeLessThanOrEqual(rim);
    });
  });

  it('never grips the plate where the knife is thicker than it', () => {
    check((bench, { moments }) => {
      if (bench.knife === null || bench.knife.thickness < bench.blade.plate) return;
      expect(moments.some(({ kind }) => kind === 'grips')).toBe(false);
    });
  });

  it('moves the leading end on until it is thrown, and back from then', () => {
    check((bench, cut) => {
      const turn = cut.thrown?.at ?? cut.lasts;
      const at = (s: number) => leadAt(cut, bench, s);
      expect(at(turn * 0.9)).toBeGreaterThan(at(turn * 0.4));
      if (cut.thrown !== null) expect(at(cut.lasts)).toBeLessThan(at(turn));
    });
  });
});
