import { type Bench, readBench } from '../../src/bench/index.ts';

/**
 * A sound bench for tests: gb, eu, us-ca and practice all find nothing wrong with it.
 * 400 mm blade, axis 110 mm down, so it stands 90 mm above the table and 40 mm above 50 mm stock;
 * half-chord at the table 167.03 mm, at the gullet roots 150.00 mm.
 */
const SOUND_BENCH = {
  schema: 'bench/1',
  name: 'Test bench',
  blade: {
    diameter: 400,
    plate: 2.8,
    kerf: 4.2,
    teeth: 36,
    gulletDepth: 14,
    hookAngle: 20,
    maxSpeed: 4000,
    condition: {
      cracks: [],
      missingTeeth: [],
      gullets: 'rounded',
      sharpness: 'sharp',
      set: 'even',
      burnt: false,
      marked: true,
    },
  },
  arbor: {
    depth: 110,
    speed: 3000,
    tilt: 0,
    largestBlade: 450,
    runDown: 8,
    runUp: 4,
    vibration: 'none',
  },
  knife: {
    thickness: 3.2,
    edgeRadius: 204,
    reach: 198.5,
    along: 2,
    up: 0,
    lateral: 0,
    play: 0,
    carriedBy: 'arbor',
    locked: true,
  },
  guard: {
    kind: 'fixed',
    height: 55,
    front: -235,
    rear: 235,
    sideDepth: 0,
    play: 0,
    fingers: 'resting',
    stuck: false,
    locked: true,
  },
  underGuard: 'enclosed',
  driveGuard: 'cover',
  fence: { face: 150, toe: 0, end: -155, locked: true, play: 0 },
  insert: { gaps: [3, 3], step: 0, worn: false },
  table: { infeed: 600, outfeed: 1250, width: 900, level: true, sound: true },
  controls: { stopReach: 400, underVoltage: true, isolator: 'lockable', isolated: false },
  place: {
    floor: 'sound',
    litter: false,
    light: 600,
    uniformity: 0.75,
    walkwaysMarked: true,
    wasteBin: true,
    toolsOnTable: false,
    foundation: 'bolted',
  },
  job: {
    cut: 'rip',
    widthOfCut: 150,
    fed: 8,
    stock: {
      length: 1800,
      width: 220,
      thickness: 50,
      kind: 'softwood',
      moisture: 12,
      density: 480,
    },
  },
  people: {
    operator: {
      x: -700,
      z: -250,
      sleeves: 'close',
      footwear: 'safety',
      eyes: 'glasses',
      ears: 'muffs',
    },
    pushStick: { length: 450, usedForLast: 300 },
    takeOff: null,
  },
};

type Overrides<T> = T extends readonly unknown[]
  ? T
  : T extends object
    ? { [K in keyof T]?: Overrides<T[K]> }
    : T;

export type BenchOverrides = Overrides<Bench>;

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function merge(base: unknown, over: unknown): unknown {
  if (over === undefined) return base;
  if (!isGroup(base) || !isGroup(over)) return over;
  const merged: Record<string, unknown> = { ...base };
  for (const key of Object.keys(over)) merged[key] = merge(base[key], over[key]);
  return merged;
}

/** The bench file before the schema has seen it. Groups are merged, lists and `null` replace. */
export function makeBenchFile(overrides: BenchOverrides = {}): Record<string, unknown> {
  return merge(structuredClone(SOUND_BENCH), overrides) as Record<string, unknown>;
}

/** The sound bench with some fields changed. Throws when the result is not a bench. */
export function makeBench(overrides: BenchOverrides = {}): Bench {
  const read = readBench(makeBenchFile(overrides));
  if (!read.ok) throw new Error(`not a bench: ${read.error.message}`);
  return read.bench;
}
