import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  adviseMove,
  bindingOf,
  cutOfBench,
  describeProblem,
  estimateThrow,
  handToBlade,
  knifeArcShare,
  knifeEdgeExists,
  knifeGaps,
  measureBench,
  raiseThrough,
  readBench,
  responsesOf,
  settingNow,
  supportOf,
} from '../../src/bench/index.ts';
import { cutArc } from '../../src/bench/mechanics/index.ts';
import { type BenchOverrides, makeBench, makeBenchFile } from '../helpers/bench.ts';

/** Corners of the model that a small slip would change and a glance would miss. */

const measured = (overrides: BenchOverrides, id: keyof ReturnType<typeof measureBench>) =>
  measureBench(makeBench(overrides))[id];

describe('measures', () => {
  it('hold the stock as a tilted blade meets it: t / cos(tilt) (maths oracle)', () => {
    // 30 mm at 45 degrees is 42.43 in the blade plane
    const tilted = { arbor: { tilt: 45 }, job: { stock: { thickness: 30 } } };
    expect(measured(tilted, 'blade.aboveStock')).toBeCloseTo(90 - 30 * Math.SQRT2, 9);
    expect(measured(tilted, 'guard.clearance')).toBeCloseTo(55 - 30 * Math.SQRT2, 9);
  });

  it('take play and side shift off the clearance of the knife in the kerf', () => {
    // kerf 4.2, knife 3.2: half a millimetre each side
    expect(measured({}, 'knife.sideClear')).toBeCloseTo(0.5, 9);
    expect(measured({ knife: { lateral: 0.2 } }, 'knife.sideClear')).toBeCloseTo(0.3, 9);
    expect(measured({ knife: { lateral: -0.2, play: 0.1 } }, 'knife.sideClear')).toBeCloseTo(
      0.2,
      9,
    );
  });

  it('have no entry angle where no tooth comes through, and one where it just does', () => {
    expect(measured({ job: { stock: { thickness: 90 } } }, 'blade.entryAngle')).toBeNull();
    expect(measured({ job: { stock: { thickness: 89.999 } } }, 'blade.entryAngle')).toBeGreaterThan(
      0,
    );
  });

  it('find the longest crack, wherever it stands in the list', () => {
    const cracks = (...lengths: number[]): BenchOverrides => ({
      blade: { condition: { cracks: lengths.map((length) => ({ length, at: 'rim' as const })) } },
    });
    expect(measured({}, 'blade.crack')).toBe(0);
    expect(measured(cracks(9, 14, 3), 'blade.crack')).toBe(14);
    expect(measured(cracks(14, 9), 'blade.crack')).toBe(14);
  });

  it('take the wider gap of the insert, and no gullet that stays under the table', () => {
    expect(measured({ insert: { gaps: [2, 4] } }, 'insert.gapMax')).toBe(4);
    expect(measured({ insert: { gaps: [4, 2] } }, 'insert.gapMax')).toBe(4);
    // gullet roots at 186: with the axis 186 down they lie level with the table
    expect(measured({ arbor: { depth: 186 } }, 'fence.pastGullets')).toBeNull();
    expect(measured({ arbor: { depth: 185.9 } }, 'fence.pastGullets')).not.toBeNull();
  });

  it('have no exposure where none was measured, part by part', () => {
    const exposed = { exposure: { peak: 120 } };
    expect(measured(exposed, 'noise.peak')).toBe(120);
    for (const id of [
      'noise.exposure',
      'noise.atEar',
      'noise.dose',
      'dust.exposure',
      'dust.respirable',
    ] as const) {
      expect(measured(exposed, id), id).toBeNull();
    }
    expect(measured({}, 'noise.peak')).toBeNull();
  });

  it('find the hand nearest as the stick is taken up, at the end with it, or on a short piece', () => {
    const hand = (length: number, usedForLast: number, piece = 1800): unknown =>
      measured(
        { people: { pushStick: { length, usedForLast } }, job: { stock: { length: piece } } },
        'hand.nearest',
      );
    expect(hand(450, 300)).toBe(300);
    expect(hand(250, 300)).toBe(250);
    expect(hand(450, 300, 200)).toBe(200);
    expect(measured({ people: { pushStick: null } }, 'hand.nearest')).toBe(0);
  });
});

describe('the knife edge', () => {
  it('is measured from wherever the axis is', () => {
    // everything moved 70 along and 30 up: the gaps stay
    const edge = { centre: { x: 2, y: -110 }, radius: 204, from: Math.asin(110 / 204), to: 1.2 };
    const moved = { ...edge, centre: { x: 72, y: -80 } };
    const here = knifeGaps(edge, { x: 0, y: -110 }, 200);
    const there = knifeGaps(moved, { x: 70, y: -80 }, 200);
    for (const key of ['max', 'min', 'atTable'] as const) {
      expect(there[key]).toBeCloseTo(here[key], 9);
    }
    // the share counts from the table, so it is moved along only
    const along = { ...edge, centre: { x: 72, y: -110 } };
    expect(knifeArcShare(along, { x: 70, y: -110 }, 200)).toBeCloseTo(
      knifeArcShare(edge, { x: 0, y: -110 }, 200),
      9,
    );
  });

  it('covers nothing where all of it stands too far off, off centre too', () => {
    const far = { centre: { x: 3, y: -110 }, radius: 240, from: 0.6, to: 1.4 };
    expect(knifeArcShare(far, { x: 0, y: -110 }, 200)).toBe(0);
    const near = {
      centre: { x: 1, y: -110 },
      radius: 205,
      from: Math.asin(110 / 205),
      to: Math.PI / 2,
    };
    expect(knifeArcShare(near, { x: 0, y: -110 }, 200)).toBeGreaterThan(0.99);
  });

  it('exists where its arc crosses the table, whichever way it is set', () => {
    const knife = { edgeRadius: 204, reach: 198, along: 0, up: 0 };
    expect(knifeEdgeExists(knife, 110)).toBe(true);
    expect(knifeEdgeExists({ ...knife, reach: 110 }, 110)).toBe(false);
    // its centre 205 above the table: the arc never comes down to it
    expect(knifeEdgeExists({ ...knife, up: 315 }, 110)).toBe(false);
    expect(knifeEdgeExists({ ...knife, up: 313 }, 110)).toBe(true);
    expect(knifeEdgeExists({ ...knife, up: 314 }, 110)).toBe(false);
  });
});

describe('binding', () => {
  const binding = (overrides: BenchOverrides, closing = 0) =>
    bindingOf(makeBench(overrides), { closing });

  it('lets the kerf close to the knife and no further, and freely without one', () => {
    expect(binding({}, 0.6).closes).toBeCloseTo(0.6, 9);
    expect(binding({}, 5).closes).toBeCloseTo(1, 9);
    expect(binding({ knife: null }, 5).closes).toBe(5);
    // a knife as thick as the kerf leaves nothing to close
    expect(binding({ knife: { thickness: 4.5 } }, 5).closes).toBe(0);
  });

  it('is not a grip on anything while the work clears the plate', () => {
    expect(binding({ knife: null }, 0.5)).toMatchObject({ intoPlate: 0, grips: false });
  });

  it('is steered by a fence that closes, never by one that opens', () => {
    expect(binding({ fence: { toe: -1.5 } }).steered).toBe(1.5);
    expect(binding({ fence: { toe: 1.5 } }).steered).toBe(0);
    expect(binding({ fence: { toe: 0.5 } }).steered).toBe(0);
  });

  it('is held off by the knife at half the room, more by what it gives and stands aside', () => {
    expect(binding({}).heldAt).toBeCloseTo(0.5, 9);
    expect(binding({ knife: { lateral: -0.3, play: 0.2 } }).heldAt).toBeCloseTo(1, 9);
    expect(binding({ knife: { lateral: 0.3 } }).heldAt).toBeCloseTo(0.8, 9);
    expect(binding({ knife: { thickness: 6 } }).heldAt).toBe(0);
    expect(binding({ knife: null }).heldAt).toBeNull();
  });
});

describe('the throw', () => {
  const bound = (overrides: BenchOverrides) =>
    estimateThrow(makeBench({ knife: null, ...overrides }), { closing: 3 });

  it('leaves by the strip between the kerf and the wider of fence and piece', () => {
    expect(bound({ fence: { face: 150 } })?.strip).toEqual({ from: -2.1, to: 152.1 });
    expect(bound({ fence: { face: 90 }, job: { widthOfCut: 150 } })?.strip.to).toBeCloseTo(
      152.1,
      9,
    );
    expect(bound({ fence: { face: 200 }, job: { widthOfCut: 150 } })?.strip.to).toBeCloseTo(
      202.1,
      9,
    );
  });

  it('reaches whoever stands in the strip or on its edge, on the operator’s side only', () => {
    const at = (x: number, z: number) => bound({ people: { operator: { x, z } } })?.reaches ?? null;
    expect(at(-800, 0)?.who).toBe('operator');
    for (const [x, z] of [
      [-800, -2.1],
      [-800, 152.1],
      [-1, 50],
    ] as const)
      expect(at(x, z)).not.toBeNull();
    for (const [x, z] of [
      [-800, -2.2],
      [-800, 152.2],
      [0, 50],
      [500, 50],
    ] as const)
      expect(at(x, z)).toBeNull();
  });

  it('is brought to a common speed with the blade: v M / (M + 2 m), and strikes with its end (maths oracle)', () => {
    const thrown = bound({});
    // 400 x 2.8 with a bore of 30 is 2.74655 kg; the piece 6.48 kg; the rim 62.832 m/s
    const speed = (62.8319 * 2.74655) / (2.74655 + 2 * 6.48);
    expect(thrown?.speed).toBeCloseTo(speed, 3);
    expect(thrown?.energy).toBeCloseTo((6.48 * speed ** 2) / 2, 1);
    // the end is 150 x 50 mm: 75 cm2
    expect(thrown?.density).toBeCloseTo((thrown?.energy ?? 0) / 75, 9);
  });

  it('meets fingers only where they rest', () => {
    expect(bound({})?.fingersBite).toBe(true);
    expect(bound({ guard: { fingers: 'raised' } })?.fingersBite).toBe(false);
    expect(bound({ guard: { fingers: 'none' } })?.fingersBite).toBe(false);
    expect(bound({ guard: null })?.fingersBite).toBe(false);
  });

  it('weighs the piece between blade and fence, no wider than the stock', () => {
    expect(bound({ job: { widthOfCut: 400, stock: { width: 220 } } })?.mass).toBeCloseTo(
      1.8 * 0.22 * 0.05 * 480,
      9,
    );
  });
});

describe('the cut', () => {
  it('of a blade that stays in the stock is as deep as the blade stands', () => {
    const deep = cutOfBench(makeBench({ job: { stock: { thickness: 200 } } }));
    const level = cutOfBench(makeBench({ job: { stock: { thickness: 90 } } }));
    expect(deep?.power).toBeCloseTo(level?.power ?? 0, 9);
    expect(deep?.entry).toBeCloseTo(0, 6);
    expect(cutArc(200, 110, 500).entry).toBe(0);
  });

  it('rubs under the thinnest chip and not at it, under twice that with a dull edge', () => {
    const mean = cutOfBench(makeBench())?.chip.mean ?? 0;
    const assume = (thinnestChip: number) => ({ specificCutting: 30, thinnestChip });
    const dull = makeBench({ blade: { condition: { sharpness: 'dull' } } });
    expect(cutOfBench(makeBench(), assume(mean))?.rubs).toBe(false);
    expect(cutOfBench(makeBench(), assume(mean * 1.01))?.rubs).toBe(true);
    expect(cutOfBench(dull, assume(mean * 0.51))?.rubs).toBe(true);
    expect(cutOfBench(dull, assume(mean * 0.49))?.rubs).toBe(false);
  });

  it('takes its share of the motor where the motor is known', () => {
    // 30 N/mm2 x 4.2 mm x 50 mm x 8 m/min / 60 = 840 W
    const cut = cutOfBench(makeBench({ arbor: { motorPower: 4200 } }));
    expect(cut?.power).toBeCloseTo(840, 9);
    expect(cut?.powerShare).toBeCloseTo(0.2, 9);
  });

  it('is drawn up to the height asked for, and not at all where nothing is fed', () => {
    expect(raiseThrough(makeBench({ job: { fed: 0 } }), 60, 5)).toEqual([]);
    // no higher than the blade stands with its axis at the table
    const curve = raiseThrough(makeBench(), 500, 3);
    expect(curve.map(({ aboveStock }) => aboveStock)).toEqual([0, 150, 150]);
  });
});

describe('support and reach', () => {
  it('tips past the edge and not at it, with as much feed left', () => {
    const half = Math.sqrt(200 ** 2 - 110 ** 2);
    const support = (over: number) =>
      supportOf(
        makeBench({ job: { stock: { length: 2000 } }, table: { outfeed: half + 1000 - over } }),
      );
    expect(support(0.5)).toMatchObject({ needsSupport: true });
    expect(support(0.5).tipsWithLeft).toBeCloseTo(0.5, 9);
    expect(support(-0.5)).toMatchObject({ needsSupport: false, tipsWithLeft: null });
    expect(support(0).tipsBy).toBeCloseTo(0, 9);
  });

  it('is the stick further off once the stick is taken up', () => {
    expect(handToBlade(makeBench(), 300.1)).toBe(300.1);
    expect(handToBlade(makeBench(), 120)).toBe(570);
    expect(handToBlade(makeBench({ people: { pushStick: null } }), 120)).toBe(120);
  });
});

describe('what moves a measure', () => {
  it('is told strongest first, whichever way it moves', () => {
    const fence = responsesOf(makeBench(), 'fence.overrun');
    expect(fence[0]).toEqual({ setting: 'fence.end', perMm: expect.closeTo(1, 6) });
    // the half-chord shrinks by d / s(0) for each mm down
    expect(fence[1]?.setting).toBe('arbor.depth');
    expect(fence[1]?.perMm).toBeCloseTo(-110 / Math.sqrt(200 ** 2 - 110 ** 2), 5);
    const lead = responsesOf(makeBench({ arbor: { depth: 180 }, knife: null }), 'guard.leadFront');
    expect(lead.map(({ setting }) => setting)).toEqual(['arbor.depth', 'guard.front']);
    expect(lead[0]?.perMm).toBeCloseTo(180 / Math.sqrt(200 ** 2 - 180 ** 2), 4);
    expect(lead[1]?.perMm).toBeCloseTo(-1, 6);
  });

  it('is judged from the free side where the range or the teeth stop the other', () => {
    const least = makeBench({ guard: { height: 0, sideDepth: 0 } });
    expect(responsesOf(least, 'guard.clearance')).toEqual([
      { setting: 'guard.height', perMm: expect.closeTo(1, 6) },
    ]);
    const most = makeBench({ guard: { height: 400 } });
    expect(responsesOf(most, 'guard.clearance')).toEqual([
      { setting: 'guard.height', perMm: expect.closeTo(1, 6) },
    ]);
    // a knife against the teeth
    const touching = makeBench({ knife: { edgeRadius: 200, along: 0, up: 0, reach: 195 } });
    const along = responsesOf(touching, 'knife.gapAtTable').find(
      ({ setting }) => setting === 'knife.along',
    );
    expect(along?.perMm).toBeCloseTo(Math.sqrt(200 ** 2 - 110 ** 2) / 200, 4);
  });

  it('is nothing for a setting that is out of its range on both sides', () => {
    const away = makeBench({ guard: { height: 500 } });
    expect(responsesOf(away, 'guard.clearance')).toEqual([]);
  });

  it('reads every setting off the bench, and none of a part that is off', () => {
    const bench = makeBench({ knife: { along: 3, up: 1 }, guard: { height: 60, front: -240 } });
    const now = [
      'knife.along',
      'knife.up',
      'guard.height',
      'guard.front',
      'fence.end',
      'fence.face',
      'arbor.depth',
    ] as const;
    expect(now.map((setting) => settingNow(bench, setting))).toEqual([
      3, 1, 60, -240, -155, 150, 110,
    ]);
    const bare = makeBench({ knife: null, guard: null });
    expect(now.map((setting) => settingNow(bare, setting))).toEqual([
      null,
      null,
      null,
      null,
      -155,
      150,
      110,
    ]);
  });
});

describe('a move that brings a measure somewhere', () => {
  it('may be to the very end of the range and no further', () => {
    // clearance = height - 50
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', 350)?.to).toBeCloseTo(400, 6);
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', 350.5)).toBeNull();
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', -50)?.to).toBeCloseTo(0, 6);
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', -50.5)).toBeNull();
  });

  it('is none where the measure does not answer, is a word, or its part is off', () => {
    expect(adviseMove(makeBench(), 'knife.gapMax', 'fence.end', 5)).toBeNull();
    expect(adviseMove(makeBench(), 'underGuard', 'fence.end', 5)).toBeNull();
    expect(adviseMove(makeBench({ guard: null }), 'guard.clearance', 'guard.height', 5)).toBeNull();
  });

  it('is none where it would go through the teeth', () => {
    expect(adviseMove(makeBench(), 'knife.gapAtTable', 'knife.along', -5)).toBeNull();
  });

  it('is no move where the measure stands there already', () => {
    expect(adviseMove(makeBench(), 'guard.clearance', 'guard.height', 5)).toEqual({
      setting: 'guard.height',
      by: 0,
      to: 55,
    });
  });
});

describe('a bench nobody could build', () => {
  const refusal = (overrides: BenchOverrides) => {
    const read = readBench(makeBenchFile(overrides));
    return read.ok ? null : read.error;
  };

  it('is refused at the very edge, and taken just inside it', () => {
    expect(refusal({ guard: { front: 100, rear: 100 } })?.message).toBe(
      'guard.front must be less than guard.rear (under 100 mm).',
    );
    expect(refusal({ guard: { front: 99, rear: 100 } })).toBeNull();
    expect(refusal({ knife: { reach: 204 } })).toBeNull();
    expect(refusal({ knife: { reach: 204.1 } })?.message).toBe(
      'knife.reach must be at most knife.edgeRadius (204 mm).',
    );
    expect(refusal({ blade: { condition: { missingTeeth: [35] } } })).toBeNull();
    expect(refusal({ blade: { condition: { broken: [35] } } })).toBeNull();
    expect(refusal({ blade: { condition: { broken: [36] } } })?.message).toBe(
      'blade.condition.broken must list teeth counted from 0 to 35.',
    );
    expect(refusal({ blade: { condition: { missingTeeth: [36] } } })?.message).toBe(
      'blade.condition.missingTeeth must list teeth counted from 0 to 35.',
    );
  });

  it('is one whose bore or flanges leave no plate', () => {
    // 400 less two gullets of 14 leaves 372 mm
    expect(refusal({ arbor: { collar: 371 } })).toBeNull();
    expect(refusal({ arbor: { collar: 372 } })?.message).toBe(
      'arbor.collar must be less than the diameter at the gullet roots (under 372 mm).',
    );
    expect(refusal({ blade: { bore: 99 }, arbor: { collar: 100 } })).toBeNull();
    expect(refusal({ blade: { bore: 100 }, arbor: { collar: 100 } })?.message).toBe(
      'blade.bore must be less than the flanges that cover it (under 100 mm).',
    );
    const small = { diameter: 250, gulletDepth: 10 };
    expect(refusal({ blade: { ...small, bore: 230 }, arbor: { depth: 50 } })?.message).toBe(
      'blade.bore must be less than the diameter at the gullet roots (under 230 mm).',
    );
  });

  it('is told where the tip has to reach, as high as the knife is set', () => {
    expect(refusal({ knife: { reach: 100, up: 4 } })).toEqual({
      path: 'knife.reach',
      message: 'knife.reach must bring the tip above the table (over 106 mm at this setting).',
    });
  });

  it('is one whose knife edge does not curve round the blade, or lies inside it', () => {
    expect(refusal({ knife: { along: 204 } })?.path).toBe('knife.edgeRadius');
    const inside = { knife: { edgeRadius: 199.9, reach: 199, along: 0, up: 0 } };
    expect(refusal(inside)?.path).toBe('knife.along');
    expect(refusal({ knife: { ...inside.knife, along: 0.2 } })).toBeNull();
  });
});

describe('a problem in one sentence', () => {
  const problem = (schema: z.ZodType, value: unknown, whole?: string) => {
    const read = schema.safeParse(value);
    if (read.success) throw new Error('it was taken');
    return describeProblem(read.error, whole);
  };
  const must = (error: string) => z.number({ error });

  it('of a choice between shapes is that of the shape that got furthest', () => {
    const shapes = z.union(
      [
        z.strictObject(
          { a: z.strictObject({ b: must('must be a number') }) },
          { error: 'must be a' },
        ),
        z.string({ error: 'must be text' }),
        z.strictObject({ a: z.strictObject({ c: must('must be c') }, { error: 'has no c' }) }),
      ],
      { error: 'must be one of three' },
    );
    expect(problem(shapes, { a: { b: 'x' } })).toEqual({
      path: 'a.b',
      message: 'a.b must be a number.',
    });
    expect(problem(z.strictObject({ list: z.array(shapes) }), { list: ['x', 7] })).toEqual({
      path: 'list[1]',
      message: 'list[1] must be one of three.',
    });
  });

  it('takes the first branch among equals, and the first problem of a branch', () => {
    const both = z.union(
      [
        z.strictObject({ a: must('must be the first') }),
        z.strictObject({ a: must('must be the second') }),
      ],
      { error: 'must be one of two' },
    );
    expect(problem(both, { a: 'x' }).message).toBe('a must be the first.');
    const two = z.union(
      [z.strictObject({ a: must('must be a'), b: z.strictObject({ c: must('must be c') }) })],
      { error: 'must be so' },
    );
    expect(problem(two, { a: 'x', b: { c: 'x' } }).message).toBe('a must be a.');
  });

  it('is named whole where no field is to blame, and never ends twice', () => {
    expect(problem(must('must be a number.'), 'x', 'The file')).toEqual({
      path: '',
      message: 'The file must be a number.',
    });
    expect(problem(must('must be a number'), 'x').message).toBe('The file must be a number.');
    expect(describeProblem(new z.ZodError([]), 'The bench').message).toBe(
      'The bench cannot be read.',
    );
  });
});
