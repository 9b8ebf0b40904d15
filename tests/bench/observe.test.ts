import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bench, observe, readBench } from '../../src/bench/index.ts';
import { type BenchOverrides, makeBench, makeBenchFile } from '../helpers/bench.ts';
import { OPTIONAL_STATES } from '../helpers/optional-states.ts';

/**
 * For every field of the bench file: a change that a person who looks must notice, or the reason
 * why looking does not tell it. What an eye, a hand and an instrument each tell: common practice,
 * no source.
 */
const SEEN: Record<string, unknown> = {
  'blade.diameter': 350,
  'blade.teeth': 48,
  'blade.gulletDepth': 22,
  'blade.hookAngle': -6,
  'blade.maxSpeed': 2800,
  'blade.condition.cracks': [{ length: 15, at: 'gullet', tooth: 3 }],
  'blade.condition.missingTeeth': [2],
  'blade.condition.gullets': 'square',
  'blade.condition.sharpness': 'dull',
  'blade.condition.set': 'uneven',
  'blade.condition.burnt': true,
  'blade.condition.marked': false,
  'arbor.depth': 130,
  'arbor.speed': 3600,
  'arbor.tilt': 12,
  'arbor.largestBlade': 600,
  'arbor.runDown': 30,
  'arbor.vibration': 'felt',
  'knife.edgeRadius': 220,
  'knife.reach': 180,
  'knife.along': 16,
  'knife.up': 6,
  'knife.lateral': 2,
  'knife.carriedBy': 'table',
  'knife.locked': false,
  'guard.kind': 'suspended',
  'guard.height': 95,
  'guard.front': -150,
  'guard.rear': 160,
  'guard.sideDepth': 12,
  'guard.fingers': 'raised',
  'guard.locked': false,
  underGuard: 'none',
  driveGuard: 'none',
  'fence.face': 160,
  'fence.end': 100,
  'fence.locked': false,
  'insert.gaps': [3, 12],
  'insert.step': -2,
  'insert.worn': true,
  'table.infeed': 900,
  'table.outfeed': 800,
  'table.width': 700,
  'table.level': false,
  'table.sound': false,
  'controls.stopReach': 1500,
  'controls.isolator': 'plain',
  'controls.isolated': true,
  'controls.underVoltage': false,
  'place.floor': 'slippery',
  'place.litter': true,
  'place.light': 150,
  'place.uniformity': 0.3,
  'place.walkwaysMarked': false,
  'place.wasteBin': false,
  'place.toolsOnTable': true,
  'place.foundation': 'loose',
  'job.stock.length': 2600,
  'job.stock.width': 90,
  'job.stock.thickness': 75,
  'job.stock.kind': 'hardwood',
  'people.operator.x': -500,
  'people.operator.z': 0,
  'people.operator.sleeves': 'loose',
  'people.operator.footwear': 'sandals',
  'people.operator.eyes': 'none',
  'people.operator.ears': 'none',
  'people.pushStick.length': 300,
  'people.pushStick.usedForLast': 100,
  'people.takeOff': {
    x: 1500,
    z: 300,
    sleeves: 'close',
    footwear: 'safety',
    eyes: 'glasses',
    ears: 'muffs',
  },
};

const NOT_SEEN: Record<string, { to: unknown; because: string }> = {
  schema: { to: 'bench/1', because: 'it is not a thing on the bench' },
  name: { to: 'Another name', because: 'it is not a thing on the bench' },
  'blade.plate': { to: 2.2, because: 'a calliper tells it' },
  'blade.kerf': { to: 5, because: 'a calliper tells it' },
  'arbor.runUp': { to: 9, because: 'a watch tells it' },
  'knife.thickness': { to: 2.2, because: 'a calliper tells it' },
  'knife.play': { to: 4, because: 'a hand tells it' },
  'guard.play': { to: 4, because: 'a hand tells it' },
  'guard.stuck': { to: true, because: 'a guard set by hand does not close by itself' },
  'fence.toe': { to: 3, because: 'a calliper tells it' },
  'fence.play': { to: 3, because: 'a hand tells it' },
  'job.cut': { to: 'crosscut', because: 'the job card tells it' },
  'job.widthOfCut': { to: 90, because: 'the job card tells it' },
  'job.fed': { to: 3, because: 'it is how the work will be done' },
  'job.stock.moisture': { to: 30, because: 'a meter tells it' },
  'job.stock.density': { to: 700, because: 'scales tell it' },
};

/** The bench with one field, named by its path, given another value. */
function withField(path: string, value: unknown): Bench {
  const over = path
    .split('.')
    .toReversed()
    .reduce<unknown>((inner, key) => ({ [key]: inner }), value);
  return makeBench(over as BenchOverrides);
}

/** Paths of every field: lists and people who may be missing count as one. */
function fieldsOf(value: unknown, path = ''): string[] {
  const isWhole = value === null || typeof value !== 'object' || Array.isArray(value);
  if (isWhole) return [path];
  return Object.entries(value).flatMap(([key, inner]) =>
    fieldsOf(inner, path === '' ? key : `${path}.${key}`),
  );
}

const told = (bench: Bench): string => JSON.stringify(observe(bench));
const keysOf = (bench: Bench): string[] => observe(bench).map((one) => one.key);

describe('what a person sees', () => {
  it('is decided for every field of the bench file', () => {
    const decided = [...Object.keys(SEEN), ...Object.keys(NOT_SEEN)];
    expect(fieldsOf(makeBenchFile()).filter((path) => !decided.includes(path))).toEqual([]);
  });

  it.each(Object.entries(SEEN))('changes with %s', (path, value) => {
    expect(told(withField(path, value))).not.toBe(told(makeBench()));
  });

  it.each(Object.entries(NOT_SEEN))('is the same whatever %s', (path, { to }) => {
    expect(told(withField(path, to))).toBe(told(makeBench()));
  });

  it('tells a self-acting guard that hangs open from one that rides on the work', () => {
    for (const kind of ['self-closing', 'counterweighted'] as const) {
      const free = makeBench({ guard: { kind, height: 80 } });
      const stuck = makeBench({ guard: { kind, height: 80, stuck: true } });
      expect(keysOf(free)).toContain('guard.rides');
      expect(keysOf(stuck)).toContain('guard.hangs-open');
    }
  });

  it('tells that knife, guard and push stick have been taken off', () => {
    const bare = makeBench({ knife: null, guard: null, people: { pushStick: null } });
    expect(keysOf(bare)).toEqual(
      expect.arrayContaining(['knife.off', 'guard.off', 'push-stick.none']),
    );
    expect(keysOf(bare).filter((key) => key.startsWith('knife.'))).toEqual(['knife.off']);
  });
});

describe('what a bench file may leave out', () => {
  it('is not told when it was not looked at, and told in each of its states', () => {
    const told = OPTIONAL_STATES.map((over) => JSON.stringify(observe(makeBench(over))));
    expect(new Set(told).size).toBeGreaterThan(OPTIONAL_STATES.length - 3);
    const plain = keysOf(makeBench());
    for (const key of ['blade.resin-no', 'insert.firm-yes', 'people.noise', 'place.glare-no']) {
      expect(plain).not.toContain(key);
    }
  });

  it('is told of the parts in the order of the walk', () => {
    for (const over of OPTIONAL_STATES) {
      const parts = observe(makeBench(over)).map((one) => one.part);
      // each part once, in one run
      expect(parts.filter((part, i) => part !== parts[i - 1])).toHaveLength(new Set(parts).size);
    }
  });

  it('says nothing of a hose where there is no extraction, nor of a key where the supply is on', () => {
    const off = { kind: 'none', running: false, hose: 'split', bag: 'full' } as const;
    expect(keysOf(makeBench({ extraction: off }))).not.toContain('place.hose-split');
    expect(keysOf(makeBench({ controls: { lockKey: 'in-lock' } }))).not.toContain(
      'controls.key-in-lock',
    );
  });
});

describe('by eye', () => {
  it('puts every length on its coarse step, never below nothing', () => {
    const bench = fc.record({
      along: fc.double({ min: -2, max: 60, noNaN: true }),
      height: fc.double({ min: 0, max: 200, noNaN: true }),
      end: fc.double({ min: -600, max: 800, noNaN: true }),
      gaps: fc.tuple(
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
      ),
    });
    fc.assert(
      fc.property(bench, ({ along, height, end, gaps }) => {
        const seen = observe(
          makeBench({ knife: { along }, guard: { height }, fence: { end }, insert: { gaps } }),
        );
        for (const { values } of seen) {
          for (const value of Object.values(values)) {
            if (typeof value !== 'object') continue;
            expect(value.about).toBeGreaterThanOrEqual(0);
            expect(value.about % value.to).toBe(0);
          }
        }
      }),
    );
  });

  it('cannot tell a gap of 7.8 mm from one of 8.2 mm: the limit of 8 needs a feeler', () => {
    const at = (along: number) => told(makeBench({ knife: { along } }));
    // the edge radius is 204 on a 200 mm tip radius: the table gap is about 4 + along * cos
    expect(at(4.5)).toBe(at(5));
  });

  it('sees a knife 15 mm back as 15 mm, and one in the teeth as touching', () => {
    // a knife concentric with the blade stands edgeRadius - R from it everywhere (plane geometry)
    const gap = observe(
      makeBench({ knife: { along: 0, up: 0, edgeRadius: 215, reach: 198 } }),
    ).find((one) => one.key === 'knife.gap-at-table');
    expect(gap?.values).toEqual({ gap: { about: 15, to: 5 } });
    const touching = makeBench({ knife: { along: -8 } });
    expect(keysOf(touching)).toContain('knife.gap-at-table-touching');
  });

  it('counts teeth from 1 at the top toward the operator, and says which lie under the table', () => {
    const { keys, teeth } = ((bench: Bench) => {
      const broken = observe(bench).filter((one) => one.key.startsWith('blade.missing'));
      return {
        keys: broken.map((one) => one.key),
        teeth: broken.map((one) => one.values['tooth']),
      };
    })(makeBench({ blade: { condition: { missingTeeth: [0, 3, 18] } } }));
    expect(teeth).toEqual([1, 4, 19]);
    // tooth 19 of 36 stands straight down
    expect(keys).toEqual(['blade.missing', 'blade.missing', 'blade.missing-below']);
  });

  it.each(['gullet', 'rim', 'bore'] as const)('names the tooth a crack at the %s lies by', (at) => {
    for (let tooth = 0; tooth < 36; tooth++) {
      const crack = observe(
        makeBench({ blade: { condition: { cracks: [{ length: 14, at, tooth }] } } }),
      ).find((one) => one.key.startsWith('blade.crack'));
      expect(crack?.values).toMatchObject({ tooth: tooth + 1, length: { about: 15, to: 5 } });
    }
  });
});

describe('no verdict', () => {
  it('has no word of right or wrong in any key', () => {
    const all = JSON.stringify([
      observe(makeBench()),
      ...Object.entries(SEEN).map(([path, value]) => observe(withField(path, value))),
    ]);
    expect(all).not.toMatch(/fault|wrong|limit|danger|fail|unsafe|too-/);
  });

  it('leaves the bench as it was', () => {
    const read = readBench(makeBenchFile());
    if (!read.ok) throw new Error(read.error.message);
    const before = structuredClone(read.bench);
    observe(read.bench);
    expect(read.bench).toEqual(before);
  });
});
