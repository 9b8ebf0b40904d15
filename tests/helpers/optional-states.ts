import type { BenchOverrides } from './bench.ts';

const PERSON = {
  x: 1500,
  z: 300,
  sleeves: 'close',
  footwear: 'safety',
  eyes: 'glasses',
  ears: 'muffs',
} as const;

const AIR = { kind: 'below', running: true, hose: 'sound', bag: 'room' } as const;
const both = (make: (yes: boolean) => BenchOverrides): BenchOverrides[] => [
  make(true),
  make(false),
];
const each = <W>(words: readonly W[], make: (word: W) => BenchOverrides): BenchOverrides[] =>
  words.map(make);

/** Every state of the fields a bench file may leave out, one after another, over the sound bench. */
export const OPTIONAL_STATES: readonly BenchOverrides[] = [
  ...each(['right', 'backwards'] as const, (mounted) => ({ blade: { mounted } })),
  ...both((handFeedMark) => ({ blade: { handFeedMark } })),
  ...both((resin) => ({ blade: { condition: { resin } } })),
  { blade: { condition: { broken: [2, 18] } } },
  ...each(['none', 'felt'] as const, (vibration) => ({ arbor: { vibration } })),
  ...each(['matched', 'unlike', 'dirty'] as const, (flanges) => ({ arbor: { flanges } })),
  ...each(['tight', 'loose'] as const, (nut) => ({ arbor: { nut } })),
  ...each(['fitted', 'worn', 'none'] as const, (packing) => ({ arbor: { packing } })),
  ...each(['straight', 'bent', 'worn'] as const, (condition) => ({ knife: { condition } })),
  { knife: { deflection: 3 } },
  ...both((whole) => ({ guard: { whole } })),
  ...both((scuffed) => ({ guard: { scuffed } })),
  ...both((window) => ({ guard: { window } })),
  ...both((leans) => ({ guard: { leans } })),
  ...each(['none', 'down', 'up'] as const, (flap) => ({ guard: { flap } })),
  // tooth 18 of 36 stands under the table
  ...each([3, 18], (tooth) => ({ blade: { condition: { scratches: [{ length: 14, tooth }] } } })),
  ...each(['knife', 'frame', 'hung'] as const, (carriedBy) => ({ guard: { carriedBy } })),
  ...each([-20, 60], (beyond) => ({
    underGuard: 'side-plates',
    underPlates: { apart: 120, beyond },
  })),
  ...both((underPacked) => ({ underPacked })),
  ...each(['sound', 'slack', 'worn'] as const, (driveBelt) => ({ driveBelt })),
  ...both((straight) => ({ fence: { straight } })),
  ...each(['none', 'ahead', 'fence'] as const, (stop) => ({ job: { cut: 'crosscut', stop } })),
  ...both((firm) => ({ insert: { firm } })),
  ...both((offcuts) => ({ table: { offcuts } })),
  ...both((stopOverBlade) => ({ controls: { stopOverBlade } })),
  ...both((stopWorks) => ({ controls: { stopWorks } })),
  ...both((startShrouded) => ({ controls: { startShrouded } })),
  ...both((underVoltage) => ({ controls: { underVoltage } })),
  ...both((isolatorMarked) => ({ controls: { isolatorMarked } })),
  ...both((isolatorBlocked) => ({ controls: { isolatorBlocked } })),
  ...each(['with-person', 'in-lock'] as const, (lockKey) => ({
    controls: { isolated: true, lockKey },
  })),
  ...both((stained) => ({ table: { stained } })),
  ...both((dusty) => ({ place: { dusty } })),
  ...both((tightKnots) => ({ job: { stock: { tightKnots } } })),
  ...both((glare) => ({ place: { glare } })),
  ...both((flicker) => ({ place: { flicker } })),
  { place: { lightAround: 320, uniformityAround: 0.4 } },
  ...each(['racked', 'stacked', 'leaning'] as const, (stock) => ({
    place: { storage: { stock } },
  })),
  ...each(['racked', 'loose'] as const, (blades) => ({ place: { storage: { blades } } })),
  ...both((blocksWay) => ({ place: { storage: { blocksWay } } })),
  ...both((solvents) => ({ place: { storage: { solvents } } })),
  ...each(['none', 'below', 'above-and-below'] as const, (kind) => ({
    extraction: { ...AIR, kind },
  })),
  { extraction: { ...AIR, running: false, hose: 'loose', bag: 'full' } },
  { extraction: { ...AIR, hose: 'split' } },
  ...each(['flat', 'bowed', 'cupped', 'twisted', 'round'] as const, (shape) => ({
    job: { stock: { shape } },
  })),
  ...both((cradle) => ({ job: { cradle } })),
  ...both((metal) => ({ job: { stock: { metal } } })),
  ...both((looseKnots) => ({ job: { stock: { looseKnots } } })),
  ...both((notched) => ({ people: { pushStick: { notched } } })),
  ...both((gloves) => ({ people: { operator: { gloves } } })),
  ...each(['short', 'tied', 'loose'] as const, (hair) => ({ people: { operator: { hair } } })),
  ...both((jewellery) => ({ people: { operator: { jewellery } } })),
  { people: { operator: { age: 19 } } },
  { people: { takeOff: { ...PERSON, gloves: true, hair: 'loose', jewellery: true, age: 20 } } },
  ...each([-600, 0, 600], (z) => ({ people: { bystander: { x: z === 0 ? 2500 : -2500, z } } })),
  ...each(['softwood', 'hardwood', 'mixed'] as const, (wood) => ({
    exposure: {
      noise: [{ level: 88, hours: 4 }],
      peak: 130,
      protection: 20,
      dust: { level: 2.5, respirable: 1, wood },
    },
  })),
];
