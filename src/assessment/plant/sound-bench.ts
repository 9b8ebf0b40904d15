import { type Bench, measureBench, readBench } from '../../bench/index.ts';
import { type FaultCatalogue, findFaults, type LimitSet } from '../../limits/index.ts';
import type { Blueprint } from '../blueprint/index.ts';
import type { Random } from '../random.ts';
import { amend } from './amend.ts';

/**
 * Everything a bench file may leave out, in good order. A field that were there on spoiled benches
 * only would tell whoever reads the page that something is wrong with it.
 */
function complete(bench: Bench): Bench {
  return {
    ...bench,
    blade: {
      ...bench.blade,
      mounted: 'right',
      condition: { ...bench.blade.condition, broken: [], resin: false, scratches: [] },
    },
    arbor: { ...bench.arbor, flanges: 'matched', nut: 'tight', packing: 'fitted' },
    knife: bench.knife && { ...bench.knife, condition: 'straight' },
    guard: bench.guard && { ...bench.guard, carriedBy: 'frame', whole: true, scuffed: false },
    underPacked: false,
    driveBelt: 'sound',
    fence: { ...bench.fence, straight: true },
    insert: { ...bench.insert, firm: true },
    table: { ...bench.table, offcuts: false, stained: false },
    controls: {
      ...bench.controls,
      stopOverBlade: false,
      stopWorks: true,
      startShrouded: true,
      isolatorMarked: true,
      isolatorBlocked: false,
    },
    place: {
      ...bench.place,
      lightAround: 380,
      glare: false,
      flicker: false,
      dusty: false,
      storage: { stock: 'racked', blades: 'racked', blocksWay: false, solvents: false },
    },
    job: {
      ...bench.job,
      stop: bench.job.cut === 'crosscut' ? 'ahead' : 'none',
      cradle: false,
      stock: {
        ...bench.job.stock,
        shape: 'flat',
        metal: false,
        looseKnots: false,
        tightKnots: false,
      },
    },
    people: {
      ...bench.people,
      operator: { ...bench.people.operator, gloves: false, hair: 'short', jewellery: false },
      pushStick: bench.people.pushStick && { ...bench.people.pushStick, notched: true },
    },
    extraction: { kind: 'above-and-below', running: true, hose: 'sound', bag: 'room' },
  };
}

/** A taker-off who stands clear of the end of the table. */
const takerOff = (bench: Bench, random: Random): Bench['people']['takeOff'] => ({
  x: bench.table.outfeed + random.step(150, 400, 50),
  z: -random.step(100, 300, 50),
  sleeves: 'close',
  footwear: 'safety',
  eyes: 'glasses',
  ears: 'muffs',
  gloves: false,
  hair: 'short',
  jewellery: false,
});

/** Small honest differences between benches in good order, so that no two look alike. */
function vary(bench: Bench, blueprint: Blueprint, random: Random): Bench {
  const cut = random.pick(blueprint.cuts);
  const kind = random.pick(blueprint.guards);
  const lift = random.step(-8, 8, 2);
  const gap = random.step(2, 4, 0.5);
  const { stock } = bench.job;
  const shorter = cut === 'crosscut' ? 900 : random.step(1200, 1800, 100);
  return amend(complete({ ...bench, job: { ...bench.job, cut } }), {
    arbor: {
      depth: bench.arbor.depth - lift,
      runDown: random.step(6, 8.6, 0.2),
      largestBlade: bench.arbor.largestBlade + random.step(0, 50, 10),
    },
    knife: { along: (bench.knife?.along ?? 0) + random.step(-1, 1, 0.5) },
    guard: {
      kind,
      carriedBy: kind === 'suspended' ? 'hung' : 'frame',
      height: (bench.guard?.height ?? 0) + lift,
      front: (bench.guard?.front ?? 0) - random.step(5, 15, 1),
      rear: (bench.guard?.rear ?? 0) + random.step(5, 15, 1),
    },
    fence: {
      face: bench.fence.face + random.step(-20, 40, 5),
      end: bench.fence.end - random.step(10, 30, 5),
    },
    insert: { gaps: [gap, Math.max(2, gap + random.step(-0.5, 0.5, 0.5))] },
    place: { light: bench.place.light + random.step(0, 200, 10) },
    job: {
      widthOfCut: bench.job.widthOfCut + random.step(-20, 40, 5),
      stock: { thickness: stock.thickness + lift, length: shorter },
    },
    people: {
      operator: { x: -random.step(700, 900, 50), z: -random.step(200, 320, 20) },
      pushStick: bench.people.pushStick && {
        ...bench.people.pushStick,
        length: bench.people.pushStick.length + random.step(0, 100, 10),
        usedForLast: bench.people.pushStick.usedForLast + random.step(0, 60, 20),
        notched: true,
      },
      takeOff: random.whole(0, 2) === 0 ? takerOff(bench, random) : null,
    },
  });
}

const TRIES = 60;

/**
 * A bench in good order that nobody has seen: one the blueprint names, with a guard and a cut it
 * allows, varied a little.
 * @throws RangeError when none of many comes out sound: the blueprint asks for what its limits forbid
 */
export function makeSoundBench(
  blueprint: Blueprint,
  benches: readonly Bench[],
  sets: readonly LimitSet[],
  catalogue: FaultCatalogue,
  random: Random,
): Bench {
  for (let i = 0; i < TRIES; i++) {
    const read = readBench(vary(random.pick(benches), blueprint, random));
    if (!read.ok) continue;
    const { bench } = read;
    if (findFaults(bench, measureBench(bench), sets, catalogue).length === 0) return bench;
  }
  throw new RangeError(
    `The blueprint ${blueprint.id} has no bench in good order under its own limits.`,
  );
}
