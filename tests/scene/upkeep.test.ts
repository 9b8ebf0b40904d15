import { BufferGeometry, Material, Texture } from 'three';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createAround } from '../../src/scene/build/around.ts';
import { buildBench } from '../../src/scene/index.ts';
import { createInstrument } from '../../src/scene/tools/instrument.ts';
import { makeBench } from '../helpers/bench.ts';
import { meshesOf } from './read-back.ts';

const DRESS = {
  sleeves: 'loose',
  footwear: 'sandals',
  eyes: 'face-shield',
  ears: 'plugs',
} as const;

/** The fullest workshop there is: every fault drawn, everything fitted, the place in disorder. */
const fullest = () =>
  makeBench({
    blade: {
      teeth: 96,
      gulletDepth: 9,
      condition: {
        cracks: [
          { length: 15, at: 'gullet' },
          { length: 20, at: 'rim' },
        ],
        missingTeeth: [4],
        sharpness: 'dull',
        set: 'uneven',
        burnt: true,
        scratches: [{ length: 30, tooth: 3 }],
      },
    },
    guard: { sideDepth: 20, kind: 'self-closing', scuffed: true },
    underGuard: 'extraction-hood',
    driveGuard: 'none',
    insert: { worn: true },
    controls: {
      isolated: true,
      lockKey: 'in-lock',
      underVoltage: false,
      stopWorks: false,
      stopOverBlade: true,
      isolatorBlocked: true,
    },
    table: { offcuts: true, sound: false, stained: true },
    extraction: { kind: 'above-and-below', running: true, hose: 'split', bag: 'full' },
    place: {
      setting: 'school',
      litter: true,
      dusty: true,
      floor: 'uneven',
      foundation: 'loose',
      toolsOnTable: true,
      glare: true,
      flicker: true,
      storage: { stock: 'leaning', blades: 'loose', blocksWay: true, solvents: true },
    },
    job: { stock: { looseKnots: true, tightKnots: true } },
    people: {
      operator: { ...DRESS, hair: 'loose', jewellery: true, gloves: true, x: -700, z: -250 },
      takeOff: { ...DRESS, x: 1650, z: 0 },
      bystander: { x: -2600, z: 60 },
    },
  });

const cornersOf = ({ index, attributes }: BufferGeometry): number =>
  index?.count ?? (attributes['position']?.count as number);

const SHADES = { wall: '#fff', dado: '#ccc', floor: '#aaa', trim: '#888', pane: '#eee' };
const furnish = (bench = fullest()) => {
  const built = buildBench(bench);
  built.add(createAround(SHADES));
  return built;
};

describe('what the bench costs', () => {
  it('is drawn in at most 80 calls and 200,000 triangles, in the fullest workshop', () => {
    const built = furnish();
    const meshes = meshesOf(built.root);
    const triangles = meshes.reduce((sum, { geometry }) => sum + cornersOf(geometry) / 3, 0);
    console.log(`fullest workshop: ${meshes.length} calls, ${triangles} triangles`);
    expect(meshes.length).toBeLessThanOrEqual(80);
    expect(triangles).toBeLessThanOrEqual(200_000);
    // and it is a whole bench that was counted
    expect(meshes.length).toBeGreaterThan(30);
    expect(triangles).toBeGreaterThan(15_000);
    built.dispose();
  });

  it('works each corner out once, however many triangles meet in it', () => {
    const built = buildBench(fullest());
    const meshes = meshesOf(built.root);
    const corners = meshes.reduce((sum, { geometry }) => sum + cornersOf(geometry), 0);
    const worked = meshes.reduce(
      (sum, { geometry }) => sum + geometry.getAttribute('position').count,
      0,
    );
    expect(worked).toBeLessThan(corners / 2);
    built.dispose();
  });

  it('shares few materials among many meshes', () => {
    const built = furnish();
    const materials = new Set(meshesOf(built.root).map((mesh) => mesh.material));
    expect(materials.size).toBeLessThanOrEqual(13);
    built.dispose();
  });
});

describe('clearing up', () => {
  type Kind = 'geometry' | 'material' | 'texture';
  const alive = {
    geometry: new Set<unknown>(),
    material: new Set<unknown>(),
    texture: new Set<unknown>(),
  };
  const watch = (kind: Kind, thing: { dispose(): void }): void => {
    alive[kind].add(thing);
  };

  beforeEach(() => {
    for (const set of Object.values(alive)) set.clear();
    // each thing tells when it is freed; three sends the event from dispose()
    for (const [kind, Made] of [
      ['geometry', BufferGeometry],
      ['material', Material],
      ['texture', Texture],
    ] as const) {
      const real = Made.prototype.dispose as (this: unknown) => void;
      vi.spyOn(Made.prototype, 'dispose').mockImplementation(function (this: unknown) {
        alive[kind].delete(this);
        real.call(this);
      });
    }
  });
  afterEach(() => {
    vi.restoreAllMocks();
  });

  /** Notes everything that hangs in the bench now. */
  const note = (built: ReturnType<typeof buildBench>): void => {
    for (const mesh of meshesOf(built.root)) {
      watch('geometry', mesh.geometry);
      const material = mesh.material as Material & { map?: Texture | null };
      watch('material', material);
      if (material.map) watch('texture', material.map);
    }
  };

  it('frees each shape a change replaces, and all of them at the end', () => {
    const built = furnish(makeBench());
    note(built);
    const count = () => alive.geometry.size;
    const first = count();
    for (const height of [60, 75, 90, 120]) {
      built.update(makeBench({ guard: { height }, fence: { end: height * 2 } }));
      note(built);
    }
    // the drawn bench holds as many shapes as before: those replaced are gone
    expect(count()).toBe(first);
    built.update(fullest());
    note(built);
    built.update(makeBench());
    note(built);
    expect(count()).toBe(first);
    built.dispose();
    expect(count()).toBe(0);
    expect(alive.material.size).toBe(0);
    expect(alive.texture.size).toBe(0);
  });

  it('frees an instrument when another is taken up, and when it is put away', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    const holder = createInstrument(built);
    note(built);
    const bare = alive.geometry.size;
    holder.show({ instrument: 'rule', at: 'knife-gap-at-table', reading: 5.5 }, bench);
    note(built);
    const withRule = alive.geometry.size;
    expect(withRule).toBeGreaterThan(bare);
    holder.show({ instrument: 'rule', at: 'fence-end', reading: 12 }, bench);
    note(built);
    holder.show({ instrument: 'rule', at: 'knife-gap-at-table', reading: 5.5 }, bench);
    note(built);
    expect(alive.geometry.size).toBe(withRule);
    holder.show(null, bench);
    expect(alive.geometry.size).toBe(bare);
    built.dispose();
  });
});
