import { type Group, Mesh, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { createAround } from '../../src/scene/build/around.ts';
import { layoutOf } from '../../src/scene/build/layout.ts';
import { bend } from '../../src/scene/build/mannequin.ts';
import { ROOM } from '../../src/scene/build/place.ts';
import { buildBench } from '../../src/scene/index.ts';
import { createVeil, standsBetween } from '../../src/scene/view/veil.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { FAULTY_SURROUNDINGS } from '../helpers/faulty-surroundings.ts';
import { CLOSE, extent, meshesOf, verticesOf } from './read-back.ts';

const SHADES = { wall: '#fff', dado: '#ccc', floor: '#aaa', trim: '#888', pane: '#eee' };

function furnished(bench: Bench) {
  const built = buildBench(bench);
  built.add(createAround(SHADES));
  return built;
}

/** Every corner and shade of the picture, folded into one number whatever order its meshes hang in. */
function fingerprint(root: Group): number {
  let total = 0;
  for (const { geometry, name } of meshesOf(root)) {
    let sum = name.length;
    for (const kind of ['position', 'color'] as const) {
      const { array } = geometry.getAttribute(kind);
      for (let i = 0; i < array.length; i++) sum = (sum * 31 + (array[i] as number) * 1000) % 1e9;
    }
    total += Math.round(sum);
  }
  return total;
}

const PERSON = {
  x: 1650,
  z: 40,
  sleeves: 'close',
  footwear: 'safety',
  eyes: 'glasses',
  ears: 'muffs',
} as const;

describe('people round the bench', () => {
  it.each([
    [-700, -250, 1650, 40, -2500, 310],
    [-930, 120, 900, 800, 2400, -1100],
    [-640.5, -333.25, 1700, -90, -3000, 40],
  ])('stand where the bench says: %i, %i', (ox, oz, tx, tz, bx, bz) => {
    const bench = makeBench({
      people: {
        operator: { x: ox, z: oz },
        takeOff: { ...PERSON, x: tx, z: tz },
        bystander: { x: bx, z: bz },
      },
    });
    const built = furnished(bench);
    const { floor } = layoutOf(bench);
    const spots = { operator: [ox, oz], 'take-off': [tx, tz], bystander: [bx, bz] } as const;
    for (const [who, [x, z]] of Object.entries(spots)) {
      const all = verticesOf(built.root, `person-${who}`);
      // the lowest things on a person are the soles: their middle is where the person stands
      const low = all.filter((v) => v.y < floor + 0.5);
      const feet = [
        ...new Map(low.map((v) => [`${v.x.toFixed(3)} ${v.z.toFixed(3)}`, v])).values(),
      ];
      const middle = (axis: 'x' | 'z') =>
        feet.reduce((sum, v) => sum + v[axis], 0) / Math.max(1, feet.length);
      expect(feet.length).toBeGreaterThan(20);
      expect(Math.abs(middle('x') - x)).toBeLessThan(CLOSE);
      expect(Math.abs(middle('z') - z)).toBeLessThan(CLOSE);
      expect(Math.abs(Math.min(...all.map((v) => v.y)) - floor)).toBeLessThan(CLOSE);
      // as tall as a grown person: median stature of men, ISO 7250-2:2010 gives about 1750 mm; from memory
      const tall = Math.max(...all.map((v) => v.y)) - floor;
      expect(tall).toBeGreaterThan(1690);
      expect(tall).toBeLessThan(1800);
    }
    built.dispose();
  });

  it('keep their hands off the teeth, wherever they stand', () => {
    for (const over of [
      { operator: { x: -400, z: -120 } },
      { takeOff: { ...PERSON, x: 500, z: 560 } },
      { takeOff: { ...PERSON, x: 420, z: -700 } },
    ]) {
      const bench = makeBench({ people: over });
      const { halfAtTable, projection } = layoutOf(bench);
      const built = furnished(bench);
      for (const who of ['operator', 'take-off']) {
        const inside = verticesOf(built.root, `person-${who}`).filter(
          (v) => Math.abs(v.x) < halfAtTable && Math.abs(v.z) < 20 && v.y > 0 && v.y < projection,
        );
        expect(inside).toEqual([]);
      }
      built.dispose();
    }
  });

  it('bend an arm without stretching it', () => {
    const [joint, end] = bend([0, 0, 0], [300, 200, 100], 290, 260, [0, -1, 0]);
    expect(Math.hypot(...joint)).toBeCloseTo(290, 6);
    expect(Math.hypot(end[0] - joint[0], end[1] - joint[1], end[2] - joint[2])).toBeCloseTo(260, 6);
    const [, short] = bend([0, 0, 0], [3000, 0, 0], 290, 260, [0, -1, 0]);
    expect(short[0]).toBeLessThan(550);
  });

  it.each([
    ['sleeves', ['close', 'rolled', 'loose']],
    ['footwear', ['safety', 'trainers', 'sandals']],
    ['eyes', ['glasses', 'face-shield', 'none']],
    ['ears', ['muffs', 'plugs', 'none']],
    ['gloves', [false, true]],
    ['hair', ['short', 'tied', 'loose']],
    ['jewellery', [false, true]],
  ] as const)('show their %s', (field, worn) => {
    const looks = worn.map((one) => {
      const built = furnished(makeBench({ people: { operator: { [field]: one } } }));
      const look = fingerprint(built.root);
      built.dispose();
      return look;
    });
    expect(new Set(looks).size).toBe(worn.length);
  });

  it('are outlined where they stand before the work, and solid elsewhere', () => {
    const at: [number, number] = [-0.7, -0.25];
    expect(standsBetween([-1.3, 0.7, -0.7], [0, 0.1, 0], at, -0.85)).toBe(true);
    expect(standsBetween([2, 0.7, 1.4], [0, 0.1, 0], at, -0.85)).toBe(false);
    // over the head is not in the way
    expect(standsBetween([-0.75, 3, -0.3], [0, 0.1, 0], at, -0.85)).toBe(false);
    const built = furnished(makeBench());
    const veil = createVeil(built.root, '#000');
    const eye = new Mesh() as unknown as Parameters<typeof veil.aim>[0];
    const looks = (x: number, y: number, z: number) => {
      eye.position.copy(new Vector3(x, y, z));
      const changed = veil.aim(eye, [0, 0.05, 0], [[0, 0.1, 0]], -0.85);
      const one = meshesOf(built.root).find(({ name }) => name === 'person-operator');
      return { changed, veil: one?.userData.veil, shadow: one?.castShadow };
    };
    expect(looks(2, 0.7, 1.4)).toMatchObject({ veil: 'solid', shadow: true });
    expect(looks(-1.3, 0.7, -0.7)).toEqual({ changed: true, veil: 'veiled', shadow: false });
    expect(looks(-1.3, 0.7, -0.71).changed).toBe(false);
    expect(looks(2, 0.7, 1.4)).toEqual({ changed: true, veil: 'solid', shadow: true });
    veil.set('hidden');
    looks(2, 0.7, 1.4);
    expect(built.root.getObjectByName('operator')?.visible).toBe(false);
    veil.dispose();
    built.dispose();
  });
});

/** What can only be heard, timed, or read in a record: it is looked for elsewhere. */
const NOT_TO_BE_SEEN = new Set([
  'too-young',
  'noise-over-figure',
  'dust-over-figure',
  'hand-too-near',
]);

const MINE = new Set(
  `litter poor-floor poor-light tools-on-table loose-foundation no-waste-bin walkways-unmarked glare
  light-flickers dim-surround stock-leaning blades-loose storage-in-the-way solvents-near stop-over-blade
  stop-dead start-open isolator-unmarked isolator-blocked key-left-in-lock bystander-in-line
  take-off-too-near gloves loose-hair jewellery extraction-missing extraction-off extraction-hose
  extraction-full offcuts-on-table push-stick-no-notch`.split(/\s+/),
);

describe('what is wrong with a place', () => {
  /** The same bench with what was not looked at filled in soundly, so that only the fault differs. */
  const SOUND: BenchOverrides = {
    controls: {
      startShrouded: true,
      isolatorMarked: true,
      stopWorks: true,
      isolatorBlocked: false,
    },
    extraction: { kind: 'above-and-below', running: true, hose: 'sound', bag: 'room' },
    place: { storage: { stock: 'racked', blades: 'racked', blocksWay: false, solvents: false } },
  };
  // one picture that is told of each change, as on the page
  const built = furnished(makeBench());
  const look = (over: BenchOverrides): number => {
    built.update(makeBench(over));
    return fingerprint(built.root);
  };
  const mixed = (over: BenchOverrides): BenchOverrides => ({
    ...SOUND,
    ...over,
    controls: { ...SOUND.controls, ...over.controls },
    place: {
      ...SOUND.place,
      ...over.place,
      storage: { ...SOUND.place?.storage, ...over.place?.storage },
    },
  });

  it.each([
    ...FAULTY_SURROUNDINGS.filter(([fault]) => MINE.has(fault)),
    ['litter', 'on the floor', { place: { litter: true } }],
    ['poor-floor', 'slippery', { place: { floor: 'slippery' } }],
    ['poor-floor', 'uneven', { place: { floor: 'uneven' } }],
    ['poor-light', 'uneven', { place: { uniformity: 0.3 } }],
    ['tools-on-table', 'left', { place: { toolsOnTable: true } }],
    ['loose-foundation', 'no bolts', { place: { foundation: 'loose' } }],
    ['no-waste-bin', 'none', { place: { wasteBin: false } }],
    ['walkways-unmarked', 'bare floor', { place: { walkwaysMarked: false } }],
    ['no-isolator', 'none', { controls: { isolator: 'none' } }],
    ['no-lockable-isolator', 'plain', { controls: { isolator: 'plain' } }],
    ['starts-by-itself', 'latching lever', { controls: { underVoltage: false } }],
    ['table-unsound', 'cracked', { table: { sound: false } }],
    ['slow-run-down', 'no brake', { arbor: { runDown: 30 } }],
  ] as [string, string, BenchOverrides][])('shows %s: %s', (fault, _, over) => {
    expect(NOT_TO_BE_SEEN.has(fault)).toBe(false);
    const base: BenchOverrides =
      fault === 'key-left-in-lock' ? { controls: { isolated: true, lockKey: 'with-person' } } : {};
    expect(look(mixed(over))).not.toBe(look(mixed(base)));
  });

  it('looks the same for what is sound and what was not looked at', () => {
    const { extraction: _, ...rest } = SOUND;
    expect(look(rest)).toBe(look({}));
  });

  it('looks like another place in each setting', () => {
    const looks = (['joinery', 'school', 'site'] as const).map((setting) =>
      look({ place: { setting } }),
    );
    expect(new Set(looks).size).toBe(3);
    expect(look({ place: { setting: 'joinery' } })).toBe(look({}));
  });

  it('stands inside its walls', () => {
    for (const setting of ['joinery', 'school', 'site'] as const) {
      built.update(makeBench({ place: { setting, litter: true } }));
      const all = verticesOf(built.root, 'place');
      const [x, z] = [extent(all, 'x'), extent(all, 'z')];
      expect(x[0]).toBeGreaterThan(ROOM.x0 - 3);
      expect(x[1]).toBeLessThan(ROOM.x1 + 1);
      expect(z[0]).toBeGreaterThan(ROOM.z0 - 1);
      expect(z[1]).toBeLessThan(ROOM.z1 + 1);
    }
  });
});
