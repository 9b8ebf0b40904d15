import type { Part } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { type Observation, see } from './observation.ts';

type Word = string | boolean | undefined;
type Told = readonly [part: Part, key: string, read: (bench: Bench) => Word];

/**
 * States that are one word or a yes or no on the bench, each with a sentence of its own for every
 * word. What was left out was not looked at, and is not told.
 */
const TOLD: readonly Told[] = [
  ['blade', 'blade.mounted', (b) => b.blade.mounted],
  ['blade', 'blade.hand-feed', (b) => b.blade.handFeedMark],
  ['blade', 'blade.resin', (b) => b.blade.condition.resin],
  ['arbor', 'arbor.vibration', (b) => b.arbor.vibration],
  ['arbor', 'arbor.flanges', (b) => b.arbor.flanges],
  ['arbor', 'arbor.nut', (b) => b.arbor.nut],
  ['insert', 'insert.packing', (b) => b.arbor.packing],
  ['insert', 'insert.firm', (b) => b.insert.firm],
  ['knife', 'knife.plate', (b) => b.knife?.condition],
  ['guard', 'guard.whole', (b) => b.guard?.whole],
  ['guard', 'guard.held', (b) => b.guard?.carriedBy],
  ['guard', 'guard.window', (b) => b.guard?.window],
  ['guard', 'guard.flap', (b) => (b.guard?.kind === 'self-closing' ? undefined : b.guard?.flap)],
  ['guard', 'guard.leans', (b) => b.guard?.leans],
  ['guard', 'guard.scuffed', (b) => b.guard?.scuffed],
  ['under-guard', 'under-guard.packed', (b) => b.underPacked],
  ['drive', 'drive.belt', (b) => b.driveBelt],
  ['fence', 'fence.straight', (b) => b.fence.straight],
  ['fence', 'fence.stop', (b) => (b.job.cut === 'crosscut' ? b.job.stop : undefined)],
  ['table', 'table.offcuts', (b) => b.table.offcuts],
  ['table', 'table.stained', (b) => b.table.stained],
  ['controls', 'controls.stop-way', (b) => b.controls.stopOverBlade],
  ['controls', 'controls.stop-works', (b) => b.controls.stopWorks],
  ['controls', 'controls.start', (b) => b.controls.startShrouded],
  ['controls', 'controls.power-back', (b) => b.controls.underVoltage],
  ['controls', 'controls.marked', (b) => b.controls.isolatorMarked],
  ['controls', 'controls.blocked', (b) => b.controls.isolatorBlocked],
  ['controls', 'controls.key', (b) => (b.controls.isolated ? b.controls.lockKey : undefined)],
  ['place', 'place.dusty', (b) => b.place.dusty],
  ['place', 'place.glare', (b) => b.place.glare],
  ['place', 'place.flicker', (b) => b.place.flicker],
  ['place', 'place.boards', (b) => b.place.storage?.stock],
  ['place', 'place.blades', (b) => b.place.storage?.blades],
  ['place', 'place.way', (b) => b.place.storage?.blocksWay],
  ['place', 'place.solvents', (b) => b.place.storage?.solvents],
  ['place', 'place.extraction', (b) => b.extraction?.kind],
  ['place', 'place.air', (b) => (taken(b) ? b.extraction?.running : undefined)],
  ['place', 'place.hose', (b) => (taken(b) ? b.extraction?.hose : undefined)],
  ['place', 'place.bag', (b) => (taken(b) ? b.extraction?.bag : undefined)],
  ['stock', 'stock.shape', (b) => b.job.stock.shape],
  ['stock', 'stock.cradle', (b) => b.job.cradle],
  ['stock', 'stock.metal', (b) => b.job.stock.metal],
  ['stock', 'stock.knots', (b) => b.job.stock.looseKnots],
  ['stock', 'stock.tight-knots', (b) => b.job.stock.tightKnots],
  ['push-stick', 'push-stick.notch', (b) => b.people.pushStick?.notched],
];

/** Whether there is extraction at all, so that hose and bag can be looked at. */
const taken = ({ extraction }: Bench): boolean => extraction?.kind !== 'none';

export const wordOf = (word: string | boolean): string =>
  typeof word === 'string' ? word : word ? 'yes' : 'no';

export const seeByWord = (bench: Bench): Observation[] =>
  TOLD.flatMap(([part, key, read]) => {
    const word = read(bench);
    return word === undefined ? [] : [see(part, `${key}-${wordOf(word)}`)];
  });
