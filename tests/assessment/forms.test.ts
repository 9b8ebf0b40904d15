import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { type FormForCandidate, makeForm, showForm } from '../../src/assessment/index.ts';
import { LOOK_ALIKES, TEST_SPOILERS } from '../../src/assessment/plant/index.ts';
import { BLUEPRINT_IDS, rulesFor } from '../helpers/exam.ts';
import { spreadOf, trySeeds } from '../helpers/exam-seeds.ts';

/** A hundred for each blueprint; tests/assessment/many-seeds.ts does the same with ten thousand. */
const SEEDS = Array.from({ length: 100 }, (_, i) => `short ${i}`);

describe.each(BLUEPRINT_IDS)('forms of %s', (id) => {
  const report = trySeeds(rulesFor(id), SEEDS, 4);

  it('are benches the schema accepts, with just the faults planned', () => {
    expect(report.broken).toEqual([]);
  });

  it('are all brought to 100 by who knows the trade and has only what is sent', () => {
    expect(report.unsolved).toEqual([]);
  });

  it('are passed by none of 400 who click at random, and by nobody who names everything', () => {
    expect(report.clicks).toBe(400);
    expect(report.clickPasses).toBe(0);
    expect(report.namedAllPasses).toBe(0);
  });

  it('are as hard as each other: expected scores lie within 5 % of their mean', () => {
    expect(spreadOf(report)).toBeLessThan(0.05);
  });

  it('take under 50 ms of the processor to make and under 5 ms to grade, at the median', () => {
    expect(report.making).toBeLessThan(50);
    expect(report.grading).toBeLessThan(5);
  });
});

describe('a seed', () => {
  const hashOf = (id: string, seed: string) =>
    createHash('sha256')
      .update(JSON.stringify(makeForm(rulesFor(id), seed)))
      .digest('hex')
      .slice(0, 16);

  it('gives these forms on every machine (kept from the first run)', () => {
    // goes red when the generator or the content it draws from changes: raise FORM_GENERATOR, or the
    // version of the blueprint, and keep the new ones
    expect(
      BLUEPRINT_IDS.flatMap((id) => ['1', '2'].map((seed) => `${id} ${seed}: ${hashOf(id, seed)}`)),
    ).toMatchInlineSnapshot(`
      [
        "eu-test 1: f8ea700394ea36d3",
        "eu-test 2: 51358d2bc0fd66d9",
        "rip-test 1: bb3635053cda3159",
        "rip-test 2: 26c69c1fdf5c5542",
        "walk-and-name 1: 37cdadd15edceed7",
        "walk-and-name 2: dc7b7b0fad24d3e2",
      ]
    `);
  });

  it('gives the same form again, and another seed another', () => {
    const hashes = SEEDS.slice(0, 60).map((seed) => hashOf('rip-test', seed));
    expect(hashOf('rip-test', SEEDS[7]!)).toBe(hashes[7]);
    expect(new Set(hashes).size).toBe(60);
  });

  it('turns up most faults and look-alikes within 100 forms', () => {
    const rules = rulesFor('rip-test');
    const tasks = SEEDS.flatMap((seed) => makeForm(rules, seed).tasks);
    const finds = tasks.flatMap((task) => (task.kind === 'find' ? [task] : []));
    const faults = new Set(finds.flatMap(({ planted }) => planted.map(({ fault }) => fault)));
    const odd = new Set(finds.flatMap((task) => task.lookAlikes.map(({ lookAlike }) => lookAlike)));
    expect(faults.size).toBeGreaterThan(80);
    expect(odd.size).toBeGreaterThan(22);
    // no fault in a quarter of the forms: nobody passes by knowing what usually comes
    for (const fault of faults) {
      const often = finds.filter(({ planted }) => planted.some((one) => one.fault === fault));
      expect(often.length, fault).toBeLessThan(SEEDS.length / 4);
    }
  });
});

/** Every key and every value of a payload, with where it stands. */
function* walk(value: unknown, at = ''): Generator<{ at: string; key: string; value: unknown }> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) {
    yield { at: `${at}.${key}`, key, value: inner };
    yield* walk(inner, `${at}.${key}`);
  }
}

/** Names under which a key, a verdict or what leads to one would travel. */
const TELLING =
  /^(seed|key|answer|right|correct|planted|lookAlikes?|like|fault|faults|severity|critical|remed.*|estimate|expected|verdict|holds|failed|margin|closeness|meets|figure|worth|fits|place|from|limit|situation|steps|slips|why|because|source|score|points|generator|tells?Truth)$/;

describe.each(BLUEPRINT_IDS)('what is sent of %s', (id) => {
  const rules = rulesFor(id);
  const sent = SEEDS.slice(0, 40).map((seed) => {
    const form = makeForm(rules, seed);
    const shown: FormForCandidate = JSON.parse(JSON.stringify(showForm(form, rules)));
    return { seed, form, shown };
  });

  it('names no answer, no verdict, no seed and nothing that leads to one', () => {
    const telling = sent.flatMap(({ shown }) =>
      [...walk(shown)].filter(({ at, key }) => {
        // `place` is a part of every bench: the floor, the light
        const ofBench = /^\.tasks\.\d+\.bench\.place$/.test(at);
        return TELLING.test(key) && !ofBench;
      }),
    );
    expect(telling.map(({ at }) => at)).toEqual([]);
  });

  it('holds no id of a fault or a look-alike, and not the seed', () => {
    const ids = new Set([
      ...TEST_SPOILERS.map(({ fault }) => fault),
      ...LOOK_ALIKES.map((one) => one.id),
    ]);
    for (const { shown, seed } of sent) {
      const words = [...walk(shown)].map(({ value }) => value).filter((v) => typeof v === 'string');
      expect(words.filter((word) => ids.has(word) || word.includes(seed))).toEqual([]);
    }
  });

  it('asks for a figure with a title that does not give it', () => {
    for (const { shown } of sent) {
      for (const task of shown.tasks) {
        if (task.kind === 'limit') expect(task.title).not.toMatch(/\d/);
      }
    }
  });
});

it('puts the right choice in every place about as often', () => {
  const rules = rulesFor('rip-test');
  const counts = new Map<string, number>();
  for (const seed of SEEDS) {
    const plan = makeForm(rules, seed).tasks.find((task) => task.kind === 'plan')!;
    const { id } = plan.stances.find(({ z }) => z < 0)!;
    counts.set(id, (counts.get(id) ?? 0) + 1);
  }
  // 100 in four places: 25 each, five standard deviations are 21.7
  for (const letter of ['a', 'b', 'c', 'd']) {
    expect(Math.abs((counts.get(letter) ?? 0) - 25)).toBeLessThan(21.7);
  }
});
