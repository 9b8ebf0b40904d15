import { describe, expect, it } from 'vitest';
import { seedRandom } from '../../src/assessment/index.ts';
import {
  LOOK_ALIKES,
  NEVER_PLANTED,
  plantBench,
  TEST_SPOILERS,
} from '../../src/assessment/plant/index.ts';
import { makeSoundBench } from '../../src/assessment/plant/sound-bench.ts';
import { type Bench, measureBench, readBench } from '../../src/bench/index.ts';
import { findFaults, judge } from '../../src/limits/index.ts';
import { BLUEPRINT_IDS, rulesFor } from '../helpers/exam.ts';
import { CATALOGUE, limitSet } from '../helpers/rules.ts';

const NEAR = [1, 3] as const;
const FAR = [8, 16] as const;

/** Under which rules, guard and cut a fault can be planted at all. */
const PLACES = ['gb', 'practice', 'eu', 'de', 'us', 'us-ca', 'hk', 'jp', 'za'].flatMap((set) =>
  (['rip', 'crosscut', 'groove'] as const).flatMap((cut) =>
    (['fixed', 'self-closing'] as const).map((guard) => ({ set, cut, guard })),
  ),
);

function faultsOf(bench: Bench, set: string): string[] {
  return findFaults(bench, measureBench(bench), [limitSet(set)], CATALOGUE).map(({ id }) => id);
}

/** A sound bench in each place; left out where the rules of the place forbid that guard. */
const SOUND = PLACES.flatMap(({ set, cut, guard }) => {
  const rules = rulesFor('rip-test', { limits: [set], cuts: [cut], guards: [guard] });
  const random = seedRandom(`${set} ${cut} ${guard}`);
  try {
    const { blueprint, benches, sets, catalogue } = rules;
    return [{ set, rules, bench: makeSoundBench(blueprint, benches, sets, catalogue, random) }];
  } catch {
    return [];
  }
});

describe('spoilers', () => {
  it('cover every fault of the catalogue but the few that say why not', () => {
    const covered = new Set([
      ...TEST_SPOILERS.map(({ fault }) => fault),
      ...Object.keys(NEVER_PLANTED),
    ]);
    expect(CATALOGUE.entries.map(({ fault }) => fault.id).filter((id) => !covered.has(id))).toEqual(
      [],
    );
    expect(TEST_SPOILERS.length).toBeGreaterThanOrEqual(110);
    expect([...covered].filter((id) => !CATALOGUE.byId.has(id))).toEqual([]);
  });

  it.each(TEST_SPOILERS.map((spoiler) => [spoiler.fault, spoiler] as const))(
    '%s can stand on a bench alone, with each of its margins',
    (fault, spoiler) => {
      const alone = (margin: string) =>
        SOUND.some(({ set, rules, bench }) => {
          const steps = margin === 'far' ? FAR : NEAR;
          const random = seedRandom(`${fault} ${margin}`);
          const spoiled = spoiler.spoil({ bench, random, sets: rules.sets, steps });
          if (spoiled === null || !readBench(spoiled).ok) return false;
          return faultsOf(spoiled, set).join() === fault;
        });
      expect(spoiler.margins.filter((margin) => !alone(margin))).toEqual([]);
    },
  );

  it('keep their distance from the limit in force, whatever it is', () => {
    // gb asks for at most 8 mm at the table, us-ca for at most half an inch anywhere
    for (const [set, measure, limit] of [
      ['gb', 'knife.gapAtTable', 8],
      ['eu', 'knife.gapMax', 8],
      ['practice', 'knife.gapMax', 12.7],
    ] as const) {
      const place = SOUND.find((one) => one.set === set)!;
      const spoiler = TEST_SPOILERS.find((one) => one.fault === 'knife-too-far')!;
      for (let i = 0; i < 40; i++) {
        const random = seedRandom(`gap ${i}`);
        const at = (steps: readonly [number, number]) => {
          const bench = spoiler.spoil({
            bench: place.bench,
            random,
            sets: place.rules.sets,
            steps,
          })!;
          return Number(measureBench(bench)[measure]) - limit;
        };
        expect(at(NEAR)).toBeGreaterThan(0.2);
        expect(at(NEAR)).toBeLessThan(1.1);
        expect(at(FAR)).toBeGreaterThan(1.9);
        expect(at(FAR)).toBeLessThan(4.4);
      }
    }
  });
});

describe('look-alikes', () => {
  it.each(LOOK_ALIKES.map((one) => [one.id, one] as const))('%s is in order', (_id, one) => {
    const places = SOUND.flatMap(({ set, rules, bench }) => {
      const random = seedRandom(one.id);
      const odd = one.apply({ bench, random, sets: rules.sets, steps: NEAR });
      if (odd === null || !readBench(odd).ok || faultsOf(odd, set).length > 0) return [];
      return [odd];
    });
    expect(places.length).toBeGreaterThan(0);
    expect(CATALOGUE.byId.has(one.like)).toBe(true);
  });

  it('that stand inside a limit stand close to it', () => {
    const place = SOUND.find((one) => one.set === 'gb')!;
    const one = LOOK_ALIKES.find(({ id }) => id === 'knife-just-near-enough')!;
    for (let i = 0; i < 40; i++) {
      const random = seedRandom(`close ${i}`);
      const bench = one.apply({ ...place, random, sets: place.rules.sets, steps: NEAR })!;
      const gap = Number(measureBench(bench)['knife.gapAtTable']);
      expect(gap).toBeLessThanOrEqual(8);
      expect(gap).toBeGreaterThan(7);
    }
  });
});

describe.each(BLUEPRINT_IDS)('a bench planted for %s', (id) => {
  const rules = rulesFor(id);
  const slot = rules.blueprint.tasks.find((one) => one.kind === 'find')!;

  it('has just the faults planned, as many of each severity as asked, and is a bench', () => {
    for (let i = 0; i < 100; i++) {
      const { bench, plan } = plantBench(slot, rules, seedRandom(`plant ${i}`));
      const found = findFaults(bench, measureBench(bench), rules.sets, rules.catalogue);
      expect(found.map((one) => one.id).sort()).toEqual(
        plan.faults.map(({ spoiler }) => spoiler.fault).sort(),
      );
      for (const severity of ['danger', 'warning', 'caution'] as const) {
        expect(found.filter((one) => one.severity === severity)).toHaveLength(
          slot.faults[severity],
        );
      }
      expect(plan.lookAlikes).toHaveLength(slot.lookAlikes);
      expect(readBench(bench).ok).toBe(true);
    }
  });

  it('tells nothing by which fields it has: spoiled or not, all are there', () => {
    const fieldsOf = (value: unknown, at = ''): string[] =>
      typeof value !== 'object' || value === null || Array.isArray(value)
        ? [at]
        : Object.entries(value).flatMap(([key, inner]) => fieldsOf(inner, `${at}.${key}`));
    // what is off, who is there and where a key hangs is seen in any case
    const open =
      /^\.(knife|guard|people\.(takeOff|bystander|pushStick)|controls\.lockKey|underPlates|blade\.handFeedMark)/;
    const of = (i: number) =>
      fieldsOf(plantBench(slot, rules, seedRandom(`fields ${i}`)).bench)
        .filter((path) => !open.test(path))
        .sort()
        .join(' ');
    const all = new Set(Array.from({ length: 60 }, (_, i) => of(i)));
    expect(all.size).toBe(1);
  });
});

it('reads its distances from the limits in force: a stricter set moves the same fault', () => {
  const { bench, rules } = SOUND.find((one) => one.set === 'gb')!;
  const results = judge(bench, measureBench(bench), rules.sets[0]!);
  expect(results.some(({ limit }) => limit === 'gb.stick.length')).toBe(true);
  const spoiler = TEST_SPOILERS.find((one) => one.fault === 'push-stick-short')!;
  const shortUnder = (set: string) =>
    spoiler.spoil({ bench, random: seedRandom('s'), sets: [limitSet(set)], steps: [1, 1] })?.people
      .pushStick?.length;
  // gb: at least 450 mm; eu: at least 400 mm
  expect(shortUnder('gb')).toBe(445);
  expect(shortUnder('eu')).toBe(395);
});
