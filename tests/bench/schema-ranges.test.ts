import { describe, expect, it } from 'vitest';
import { readBench } from '../../src/bench/index.ts';
import { makeBenchFile } from '../helpers/bench.ts';

/**
 * The range of every number and the words of every choice in a bench file, restated: a range that
 * changes is meant to change here too. They say what a bench can be, not what is right, so they have
 * no source but ours: wide enough for any bench there is, narrow enough to catch a slip.
 */

type Group = Record<string, unknown>;

/** The sound bench with every part that may be left out, so that each field has a place. */
function wholeFile(): Group {
  const file = makeBenchFile({
    people: {
      takeOff: { x: 1400, z: 0, sleeves: 'close', footwear: 'safety', eyes: 'none', ears: 'none' },
      bystander: { x: -3000, z: 900 },
      operator: { age: 30 },
    },
    underPlates: { apart: 120, beyond: 60 },
    extraction: { kind: 'below', running: true, hose: 'sound', bag: 'room' },
    exposure: {
      noise: [{ level: 80, hours: 1 }],
      peak: 100,
      protection: 10,
      dust: { level: 1, respirable: 0.2, wood: 'mixed' },
    },
    place: { storage: { stock: 'racked' } },
    blade: {
      condition: {
        cracks: [{ length: 2, at: 'rim', tooth: 1 }],
        broken: [1],
        scratches: [{ length: 30, tooth: 2 }],
      },
    },
    knife: { deflection: 1 },
    arbor: { motorPower: 4000 },
  });
  return file;
}

/** The file with one field set; lists are entered by number. */
function withField(path: string, value: unknown): Group {
  const file = wholeFile();
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  let group: Group = file;
  for (const key of keys) group = group[key] as Group;
  group[last] = value;
  return file;
}

const formOf = (path: string): string => path.replace(/\.(\d+)/g, '[$1]');

/** What the field is refused with, or null when nothing is said against it. */
function saidOf(path: string, value: unknown): string | null {
  const read = readBench(withField(path, value));
  if (read.ok || read.error.path !== formOf(path)) return null;
  return read.error.message;
}

const MM = 'mm';
const RANGES: readonly (readonly [path: string, least: number, greatest: number, unit: string])[] =
  [
    ['blade.diameter', 50, 2000, MM],
    ['blade.plate', 0.5, 12, MM],
    ['blade.kerf', 0.5, 20, MM],
    ['blade.gulletDepth', 1, 100, MM],
    ['blade.hookAngle', -15, 40, 'degrees'],
    ['blade.maxSpeed', 100, 30_000, 'rpm'],
    ['blade.bore', 5, 300, MM],
    ['arbor.collar', 10, 500, MM],
    ['blade.condition.cracks.0.length', 0, 500, MM],
    ['blade.condition.scratches.0.length', 1, 500, MM],
    ['arbor.depth', 0, 1000, MM],
    ['arbor.speed', 100, 30_000, 'rpm'],
    ['arbor.tilt', 0, 50, 'degrees'],
    ['arbor.largestBlade', 50, 2000, MM],
    ['arbor.runDown', 0, 600, 's'],
    ['arbor.runUp', 0, 600, 's'],
    ['arbor.motorPower', 50, 100_000, 'W'],
    ['knife.thickness', 0.3, 20, MM],
    ['knife.edgeRadius', 20, 1500, MM],
    ['knife.reach', 0, 1500, MM],
    ['knife.along', -500, 500, MM],
    ['knife.up', -500, 500, MM],
    ['knife.lateral', -50, 50, MM],
    ['knife.play', 0, 50, MM],
    ['knife.deflection', 0, 100, MM],
    ['guard.height', 0, 1000, MM],
    ['guard.front', -1500, 500, MM],
    ['guard.rear', -500, 1500, MM],
    ['guard.sideDepth', 0, 500, MM],
    ['guard.play', 0, 50, MM],
    ['underPlates.apart', 0, 1000, MM],
    ['underPlates.beyond', -500, 1000, MM],
    ['fence.face', 0, 3000, MM],
    ['fence.toe', -50, 50, MM],
    ['fence.end', -1500, 3000, MM],
    ['fence.play', 0, 50, MM],
    ['insert.gaps.0', 0, 100, MM],
    ['insert.gaps.1', 0, 100, MM],
    ['insert.step', -20, 20, MM],
    ['table.infeed', 100, 5000, MM],
    ['table.outfeed', 50, 10_000, MM],
    ['table.width', 100, 5000, MM],
    ['controls.stopReach', 0, 10_000, MM],
    ['place.light', 0, 100_000, 'lx'],
    ['place.uniformity', 0, 1, ''],
    ['place.lightAround', 0, 100_000, 'lx'],
    ['place.uniformityAround', 0, 1, ''],
    ['job.widthOfCut', 0, 3000, MM],
    ['job.fed', 0, 200, 'm/min'],
    ['job.stock.length', 1, 20_000, MM],
    ['job.stock.width', 1, 3000, MM],
    ['job.stock.thickness', 0.5, 1000, MM],
    ['job.stock.moisture', 0, 200, '%'],
    ['job.stock.density', 50, 2000, 'kg/m3'],
    ['people.operator.x', -20_000, 20_000, MM],
    ['people.operator.z', -20_000, 20_000, MM],
    ['people.takeOff.x', -20_000, 20_000, MM],
    ['people.bystander.x', -20_000, 20_000, MM],
    ['people.bystander.z', -20_000, 20_000, MM],
    ['people.pushStick.length', 0, 2000, MM],
    ['people.pushStick.usedForLast', 0, 20_000, MM],
    ['exposure.noise.0.level', 0, 140, 'dB(A)'],
    ['exposure.noise.0.hours', 0.01, 24, 'h'],
    ['exposure.peak', 0, 170, 'dB(C)'],
    ['exposure.protection', 0, 40, 'dB'],
    ['exposure.dust.level', 0, 1000, 'mg/m3'],
    ['exposure.dust.respirable', 0, 1000, 'mg/m3'],
  ];

describe('the range of a number', () => {
  it.each(RANGES)('%s goes from %d to %d %s, ends included', (path, least, greatest, unit) => {
    const said = `${formOf(path)} must be a number from ${least} to ${greatest}${unit === '' ? '' : ` ${unit}`}.`;
    expect(saidOf(path, least - 0.001)).toBe(said);
    expect(saidOf(path, greatest + 0.001)).toBe(said);
    for (const end of [least, greatest]) expect(saidOf(path, end)).not.toBe(said);
    for (const strange of [
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      '1',
      true,
    ]) {
      expect(saidOf(path, strange)).toBe(said);
    }
  });

  it.each([
    ['blade.teeth', 2, 200],
    ['blade.condition.missingTeeth.0', 0, 199],
    ['blade.condition.broken.0', 0, 199],
    ['blade.condition.cracks.0.tooth', 0, 199],
    ['blade.condition.scratches.0.tooth', 0, 199],
    ['people.operator.age', 10, 100],
  ])('%s is a whole number from %d to %d', (path, least, greatest) => {
    const said = `${formOf(path)} must be a whole number from ${least} to ${greatest}.`;
    for (const wrong of [least - 1, greatest + 1, least + 0.5, Number.NaN]) {
      expect(saidOf(path, wrong)).toBe(said);
    }
    for (const end of [least, greatest]) expect(saidOf(path, end)).not.toBe(said);
  });

  it.each([
    ['blade.condition.cracks', 20, { length: 1, at: 'rim' }, 'cracks'],
    ['blade.condition.scratches', 20, { length: 30, tooth: 1 }, 'scratches'],
    ['blade.condition.missingTeeth', 200, 1, 'teeth'],
    ['blade.condition.broken', 200, 1, 'teeth'],
  ])('%s lists at most %d', (path, most, one, named) => {
    const list = (count: number) => Array.from({ length: count }, () => one);
    expect(saidOf(path, list(most))).toBeNull();
    expect(saidOf(path, list(most + 1))).toBe(`${path} must list at most ${most} ${named}.`);
    expect(saidOf(path, 'none')).toBe(`${path} must be a list.`);
  });

  it('a day has at least one stretch of noise, at most 48, and at most 24 hours in all', () => {
    const day = (count: number, hours: number) =>
      Array.from({ length: count }, () => ({ level: 80, hours }));
    expect(saidOf('exposure.noise', day(48, 0.5))).toBeNull();
    expect(saidOf('exposure.noise', [])).toBe(
      'exposure.noise must list at least one stretch of the day.',
    );
    expect(saidOf('exposure.noise', day(49, 0.1))).toBe(
      'exposure.noise must list at most 48 stretches of the day.',
    );
    expect(saidOf('exposure.noise', day(2, 12))).toBeNull();
    expect(saidOf('exposure.noise', day(2, 12.1))).toBe(
      'exposure.noise must list at most 24 hours in all.',
    );
    expect(saidOf('exposure.noise', 97)).toBe('exposure.noise must be a list.');
  });

  it('a name has at most 120 characters, a word 1 to 60', () => {
    expect(saidOf('name', 'x'.repeat(120))).toBeNull();
    expect(saidOf('name', 'x'.repeat(121))).toBe('name must be at most 120 characters.');
    expect(saidOf('name', 7)).toBe('name must be text.');
    for (const path of ['job.stock.kind', 'people.operator.sleeves', 'people.operator.ears']) {
      expect(saidOf(path, 'x'.repeat(60))).toBeNull();
      for (const wrong of ['', 'x'.repeat(61), 7]) {
        expect(saidOf(path, wrong)).toBe(`${path} must be text of 1 to 60 characters.`);
      }
    }
  });
});

const CHOICES: readonly (readonly [path: string, ...words: string[]])[] = [
  ['blade.condition.cracks.0.at', 'gullet', 'rim', 'bore'],
  ['blade.condition.gullets', 'rounded', 'square'],
  ['blade.condition.sharpness', 'sharp', 'dull', 'uneven'],
  ['blade.condition.set', 'even', 'uneven'],
  ['blade.mounted', 'right', 'backwards'],
  ['arbor.vibration', 'none', 'felt'],
  ['arbor.flanges', 'matched', 'unlike', 'dirty'],
  ['arbor.nut', 'tight', 'loose'],
  ['arbor.packing', 'fitted', 'worn', 'none'],
  ['knife.carriedBy', 'arbor', 'frame', 'table'],
  ['knife.condition', 'straight', 'bent', 'worn'],
  ['guard.kind', 'fixed', 'self-closing', 'counterweighted', 'suspended'],
  ['guard.fingers', 'none', 'raised', 'resting'],
  ['guard.carriedBy', 'knife', 'frame', 'hung'],
  ['guard.flap', 'none', 'down', 'up'],
  ['underGuard', 'none', 'side-plates', 'enclosed', 'extraction-hood'],
  ['driveGuard', 'none', 'cover'],
  ['driveBelt', 'sound', 'slack', 'worn'],
  ['controls.turning', 'still', 'running', 'slowing'],
  ['controls.isolator', 'lockable', 'plain', 'none'],
  ['controls.lockKey', 'with-person', 'in-lock'],
  ['place.floor', 'sound', 'slippery', 'uneven'],
  ['place.foundation', 'bolted', 'loose'],
  ['place.storage.stock', 'racked', 'stacked', 'leaning'],
  ['place.storage.blades', 'racked', 'loose'],
  ['job.cut', 'rip', 'crosscut', 'bevel', 'deep', 'rebate', 'groove'],
  ['job.stop', 'none', 'ahead', 'fence'],
  ['job.stock.shape', 'flat', 'bowed', 'cupped', 'twisted', 'round'],
  ['people.operator.hair', 'short', 'tied', 'loose'],
  ['extraction.kind', 'none', 'below', 'above-and-below'],
  ['extraction.hose', 'sound', 'loose', 'split'],
  ['extraction.bag', 'room', 'full'],
  ['exposure.dust.wood', 'softwood', 'hardwood', 'mixed'],
];

describe('the words of a choice', () => {
  it.each(CHOICES)('%s', (path, ...words) => {
    for (const word of words) expect(saidOf(path, word)).toBeNull();
    expect(saidOf(path, 'something else')).toBe(
      `${formOf(path)} must be one of: ${words.join(', ')}.`,
    );
  });
});

describe('a yes or no', () => {
  it.each([
    'blade.condition.burnt',
    'blade.condition.resin',
    'blade.condition.marked',
    'blade.handFeedMark',
    'knife.locked',
    'guard.stuck',
    'guard.locked',
    'guard.whole',
    'guard.scuffed',
    'guard.window',
    'guard.leans',
    'underPacked',
    'fence.locked',
    'fence.straight',
    'insert.worn',
    'insert.firm',
    'table.level',
    'table.sound',
    'table.offcuts',
    'table.stained',
    'controls.underVoltage',
    'controls.isolated',
    'controls.stopOverBlade',
    'controls.stopWorks',
    'controls.startShrouded',
    'controls.isolatorMarked',
    'controls.isolatorBlocked',
    'place.litter',
    'place.dusty',
    'place.walkwaysMarked',
    'place.wasteBin',
    'place.toolsOnTable',
    'place.glare',
    'place.flicker',
    'place.storage.blocksWay',
    'place.storage.solvents',
    'job.cradle',
    'job.stock.metal',
    'job.stock.looseKnots',
    'job.stock.tightKnots',
    'people.operator.gloves',
    'people.operator.jewellery',
    'people.pushStick.notched',
    'extraction.running',
  ])('%s', (path) => {
    for (const value of [true, false]) expect(saidOf(path, value)).toBeNull();
    for (const wrong of ['yes', 1, null]) {
      expect(saidOf(path, wrong)).toBe(`${path} must be true or false.`);
    }
  });

  it('that is left out is the usual state: clamps tight, the supply on', () => {
    const file = makeBenchFile();
    for (const [part, field] of [
      ['knife', 'locked'],
      ['guard', 'locked'],
      ['controls', 'isolated'],
    ] as const) {
      delete (file[part] as Group)[field];
    }
    const read = readBench(file);
    expect(
      read.ok && [read.bench.knife?.locked, read.bench.guard?.locked, read.bench.controls.isolated],
    ).toEqual([true, true, false]);
  });
});
