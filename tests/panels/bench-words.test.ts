import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import panel from '../../content/messages/en/bench-panel.json';
import result from '../../content/messages/en/bench-result.json';
import observed from '../../content/messages/en/observed.json';
import { observe, SETTING_IDS } from '../../src/bench/index.ts';
import { MM_PER_INCH } from '../../src/geometry/index.ts';
import { stepsOf } from '../../src/panels/bench/work/steps.ts';
import { tell } from '../../src/panels/bench/work/tell.ts';
import { sayByEye, sayLength, shownUnit } from '../../src/panels/bench/work/words.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { OPTIONAL_STATES } from '../helpers/optional-states.ts';

const PANEL = resolve(import.meta.dirname, '../../src/panels/bench');

afterEach(() => {
  shownUnit.value = 'mm';
});

/** evenly spread, to a hundredth: doubles crowd round nothing */
const length = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((hundredths) => hundredths / 100);
const person = fc.record({
  x: length(-2000, 3000),
  z: length(-800, 800),
  sleeves: fc.constantFrom('close', 'rolled', 'loose', 'a thing nobody named'),
  footwear: fc.constantFrom('safety', 'trainers', 'sandals'),
  eyes: fc.constantFrom('glasses', 'face-shield', 'none'),
  ears: fc.constantFrom('muffs', 'plugs', 'none'),
});

/** Benches in every state that can be seen, far out of order too. */
const anyBench = fc
  .record({
    blade: fc.record({
      hookAngle: length(-15, 40),
      condition: fc.record({
        cracks: fc.array(
          fc.record({
            length: length(0, 60),
            at: fc.constantFrom('gullet', 'rim', 'bore'),
            tooth: fc.integer({ min: 0, max: 35 }),
          }),
          { maxLength: 3 },
        ),
        missingTeeth: fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { maxLength: 4 }),
        gullets: fc.constantFrom('rounded', 'square'),
        sharpness: fc.constantFrom('sharp', 'dull', 'uneven'),
        set: fc.constantFrom('even', 'uneven'),
        burnt: fc.boolean(),
        marked: fc.boolean(),
      }),
    }),
    arbor: fc.record({ tilt: length(0, 45) }),
    knife: fc.option(
      fc.record({
        along: length(-8, 60),
        up: length(-2, 30),
        lateral: length(-6, 6),
        carriedBy: fc.constantFrom('arbor', 'frame', 'table'),
        locked: fc.boolean(),
      }),
    ),
    guard: fc.option(
      fc.record({
        kind: fc.constantFrom('fixed', 'self-closing', 'counterweighted', 'suspended'),
        height: fc.oneof(length(20, 200), fc.constantFrom(50, 52, 76)),
        front: length(-300, -50),
        rear: length(50, 300),
        sideDepth: fc.oneof(length(0, 40), fc.constant(0)),
        fingers: fc.constantFrom('none', 'raised', 'resting'),
        stuck: fc.boolean(),
        locked: fc.boolean(),
      }),
    ),
    underGuard: fc.constantFrom('none', 'side-plates', 'enclosed', 'extraction-hood'),
    driveGuard: fc.constantFrom('none', 'cover'),
    // the front teeth stand at -167, their gullets at -150
    fence: fc.record({
      end: fc.oneof(length(-600, 600), fc.constantFrom(-167, -150)),
      locked: fc.boolean(),
    }),
    insert: fc.record({ step: length(-5, 5), worn: fc.boolean() }),
    table: fc.record({ level: fc.boolean(), sound: fc.boolean() }),
    controls: fc.record({
      isolator: fc.constantFrom('lockable', 'plain', 'none'),
      isolated: fc.boolean(),
    }),
    place: fc.record({
      floor: fc.constantFrom('sound', 'slippery', 'uneven'),
      litter: fc.boolean(),
      light: length(0, 2000),
      uniformity: length(0, 1),
      walkwaysMarked: fc.boolean(),
      wasteBin: fc.boolean(),
      toolsOnTable: fc.boolean(),
      foundation: fc.constantFrom('bolted', 'loose'),
    }),
    people: fc.record({
      operator: person,
      takeOff: fc.option(person),
      pushStick: fc.option(fc.record({ length: length(0, 800), usedForLast: length(0, 900) })),
    }),
  })
  .map((over) => makeBench(over as BenchOverrides));

describe('the bench told in words', () => {
  it.each(['mm', 'inch'] as const)('has a whole sentence for all that is seen, in %s', (unit) => {
    shownUnit.value = unit;
    const told = new Set<string>();
    fc.assert(
      fc.property(anyBench, fc.integer({ min: -40, max: 40 }), (bench, turned) => {
        for (const one of observe(bench, turned)) {
          told.add(one.key);
          expect(Object.keys(observed)).toContain(one.key);
          const sentence = tell(one);
          expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
          expect(sentence).not.toMatch(/[{}]|undefined|NaN|object/);
        }
      }),
      // a fixed seed: this run must come past every sentence there is
      { numRuns: 600, seed: 20260303 },
    );
    // a knife too flat for its blade touches between its ends; one hung too low touches at its tip
    for (const knife of [
      { edgeRadius: 300, along: -50.5, up: -87.5, reach: 282.5 },
      { along: 10, up: -7 },
    ]) {
      for (const one of observe(makeBench({ knife }))) {
        told.add(one.key);
        expect(tell(one)).toMatch(/^[A-Z0-9].*\.$/);
      }
    }
    for (const over of OPTIONAL_STATES) {
      for (const one of observe(makeBench(over))) {
        told.add(one.key);
        expect(tell(one)).toMatch(/^[A-Z0-9].*\.$/);
        expect(tell(one)).not.toMatch(/[{}]|undefined|NaN|object/);
      }
    }
    // and no sentence waits for a thing that is never seen
    const sentences = Object.entries(observed).filter(([, text]) => text.endsWith('.'));
    expect(sentences.map(([key]) => key).filter((key) => !told.has(key))).toEqual([]);
  });

  it('gives no verdict', () => {
    // words a trainer would use to judge; "greatest speed" is a mark on the blade
    expect(Object.values(observed).join(' ')).not.toMatch(
      /\b(wrong|fault|should|must|too (far|high|wide|thin)|limit|unsafe|danger|correct|in order)\b/i,
    );
  });

  it('tells a crack as a fine dark line, where it runs and how long it looks', () => {
    const bench = makeBench({
      blade: { condition: { cracks: [{ length: 14, at: 'gullet', tooth: 3 }] } },
    });
    const crack = observe(bench).find((one) => one.key === 'blade.crack-gullet');
    expect(crack && tell(crack)).toBe(
      'A fine dark line runs from the gullet by tooth 4 toward the bore, about 15 mm long.',
    );
  });
});

describe('what looks odd and is in order', () => {
  const sentences = (over: BenchOverrides): string[] => observe(makeBench(over)).map(tell);
  const changed = (over: BenchOverrides, than: BenchOverrides): string[] =>
    sentences(over).filter((one) => !sentences(than).includes(one));

  it.each<[string, BenchOverrides, BenchOverrides, RegExp]>([
    [
      'a scratch',
      { blade: { condition: { scratches: [{ length: 14, tooth: 3 }] } } },
      {},
      /^A fine bright line .* below tooth 4, about 15 mm long, .*gullet\.$/,
    ],
    ['worn paint', { guard: { scuffed: true } }, { guard: { scuffed: false } }, /^Paint/],
    ['a window', { guard: { window: true } }, { guard: { window: false } }, /window/],
    ['a flap', { guard: { flap: 'up' } }, { guard: { flap: 'down' } }, /flap .* swung up/],
    [
      'a carrier that stays upright',
      { guard: { leans: false } },
      { guard: { leans: true } },
      /upright/,
    ],
    ['a stain', { table: { stained: true } }, { table: { stained: false } }, /ring/],
    ['dust', { place: { dusty: true } }, { place: { dusty: false } }, /film of dust/],
    [
      'tight knots',
      { job: { stock: { tightKnots: true } } },
      { job: { stock: { tightKnots: false } } },
      /^Knots/,
    ],
    ['a face shield', { people: { operator: { eyes: 'face-shield' } } }, {}, /face shield/],
    ['plugs', { people: { operator: { ears: 'plugs' } } }, {}, /ear plugs/],
    ['rolled sleeves', { people: { operator: { sleeves: 'rolled' } } }, {}, /rolled up/],
    [
      'tied hair',
      { people: { operator: { hair: 'tied' } } },
      { people: { operator: { hair: 'short' } } },
      /tied up/,
    ],
    [
      'a bystander aside',
      { people: { bystander: { x: -2500, z: -1000 } } },
      {},
      /^Someone else stands about 1000 mm left/,
    ],
    [
      'a stack',
      { place: { storage: { stock: 'stacked' } } },
      { place: { storage: { stock: 'racked' } } },
      /stacked flat/,
    ],
    [
      'a key kept',
      { controls: { isolated: true, lockKey: 'with-person' } },
      { controls: { isolated: true, lockKey: 'in-lock' } },
      /pocket/,
    ],
    ['a hood below', { underGuard: 'extraction-hood' }, {}, /extraction hose/],
  ])('%s has one sentence of its own, and changes no other', (_, over, than, says) => {
    const told = changed(over, than);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(says);
  });

  it('is told in the tone of the fault it looks like', () => {
    const line = { length: 14, tooth: 3 };
    const [scratch] = changed({ blade: { condition: { scratches: [line] } } }, {});
    const [crack] = changed({ blade: { condition: { cracks: [{ ...line, at: 'gullet' }] } } }, {});
    for (const one of [scratch, crack]) {
      expect(one).toMatch(/^A fine (dark|bright) line .*tooth 4\b.*about 15 mm long/);
      expect(one).not.toMatch(/scratch|crack|harmless|sound|only|just/i);
    }
  });
});

describe('lengths in words', () => {
  it.each([
    [{ about: 15, to: 5 }, 'about 15 mm', 'about 5/8 in'],
    [{ about: 0, to: 5 }, 'less than 2.5 mm', 'less than 1/8 in'],
    [{ about: 1250, to: 50 }, 'about 1250 mm', 'about 49 in'],
    [{ about: 4, to: 2 }, 'about 4 mm', 'about 3/16 in'],
  ])('by eye %j is %s, or %s', (seen, mm, inch) => {
    expect(sayByEye(seen)).toBe(mm);
    shownUnit.value = 'inch';
    expect(sayByEye(seen)).toBe(inch);
  });

  it('follows the unit switch', () => {
    expect(sayLength({ mm: 7.95, digits: 2 })).toBe('7.95 mm');
    shownUnit.value = 'inch';
    expect(sayLength({ mm: 7.9375 })).toBe('5/16 in');
  });

  it.each(SETTING_IDS)('steps %s by whole marks of the rule in use', (setting) => {
    const inch = stepsOf(setting, 'inch');
    for (const step of [inch.fine, inch.coarse]) {
      expect((step / MM_PER_INCH) * 64).toBeCloseTo(Math.round((step / MM_PER_INCH) * 64), 9);
    }
    const mm = stepsOf(setting, 'mm');
    expect(mm.coarse).toBeGreaterThan(mm.fine);
    expect(mm.fine).toBeGreaterThan(0);
  });
});

describe('the panel’s words', () => {
  const files = readdirSync(PANEL, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.tsx?$/.test(name),
  );
  const source = files.map((name) => readFileSync(resolve(PANEL, name), 'utf8')).join('\n');

  it('are all used: by name, or as one of a family', () => {
    const families = [...source.matchAll(/`([\w.-]+[.-])\$\{/g)].map((match) => match[1] as string);
    const unused = [...Object.keys(panel), ...Object.keys(result)].filter(
      (key) => !source.includes(`'${key}'`) && !families.some((family) => key.startsWith(family)),
    );
    expect(unused.filter((key) => !key.startsWith('eye.'))).toEqual([]);
  });

  it('never declare anybody competent or licensed', () => {
    const all = [...Object.values(panel), ...Object.values(result)].join(' ');
    expect(all).not.toMatch(/\b(competent|qualified|licen[cs]ed|passed|certified)\b/i);
  });

  it('come with no rule: the panel takes nothing but types from limits, grading and assessment', () => {
    const taken = [...source.matchAll(/import (type )?[^;]*?from '([^']+)'/g)].filter(
      ([, isType, from]) =>
        isType === undefined && /\/(limits|grading|assessment|attempts|store)\//.test(from ?? ''),
    );
    expect(taken.map(([whole]) => whole)).toEqual([]);
  });
});
