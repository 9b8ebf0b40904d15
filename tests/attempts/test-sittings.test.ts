import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Site, Viewer } from '../../src/accounts/index.ts';
import {
  chooseSeed,
  makeForm,
  practiseNext,
  testFigures,
  type Work,
} from '../../src/assessment/index.ts';
import {
  blueprintSittings,
  faultsMet,
  handInSitting,
  openSitting,
  releaseSitting,
  setSitting,
} from '../../src/attempts/index.ts';
import { freshSeed } from '../../src/attempts/sitting/fresh-seed.ts';
import { addMember, granted, makeWorkshop } from '../accounts/temp-site.ts';
import { rulesFor } from '../helpers/exam.ts';
import { sitPerfectly } from '../helpers/perfect-candidate.ts';

let site: Site;
let remove: () => Promise<void>;
let trainer: Viewer;
let mira: Viewer;
let tom: Viewer;
beforeAll(async () => {
  ({ site, remove, trainer, mira, tom } = await makeWorkshop());
}, 30_000);
afterAll(() => remove());

const HOLD = 'a-tab-of-this-test-0001';
const BLUEPRINT = { id: 'rip-test', version: 1 };

/** Sits the whole test; `how` changes what somebody who knows everything would hand in. */
async function sit(
  viewer: Viewer,
  how: (work: Work) => Work,
  blueprint = BLUEPRINT.id,
): Promise<string> {
  const ask = { blueprint, how: 'begin', time: 'as-set', hold: HOLD };
  const opened = granted(await openSitting(site, viewer, ask));
  if (opened.state !== 'open') throw new Error(opened.state);
  const { attempt, form, revision } = opened.given;
  const { sets, catalogue } = rulesFor(blueprint);
  const work = how(sitPerfectly(form, { sets, catalogue }));
  granted(await handInSitting(site, viewer, { attempt, hold: HOLD, revision, work }));
  return attempt;
}
const sittings = () => blueprintSittings(site, trainer.org, BLUEPRINT);

describe('tests handed in, as figures take them', () => {
  it('have every part at 100 and every fault found for one who knows everything', async () => {
    await sit(mira, (work) => work);
    const [one] = await sittings();
    expect(one?.person).toBe(mira.person);
    expect(one?.score).toBeCloseTo(100, 6);
    expect(Object.values(one?.parts ?? {}).map(({ score }) => Math.round(score))).toEqual(
      Object.keys(one?.parts ?? {}).map(() => 100),
    );
    // rip-test asks for 2 + 3 + 1 faults; the engine may find more where one brings another
    expect(Object.keys(one?.faults ?? {}).length).toBeGreaterThanOrEqual(6);
    expect(Object.values(one?.faults ?? {}).every(Boolean)).toBe(true);
    expect(one?.judgements.length).toBe(Object.keys(one?.faults ?? {}).length);
    expect(one?.judgements.every(({ right }) => right)).toBe(true);
  });

  it('have a false alarm as a judgement that was wrong, with how sure the person was', async () => {
    await sit(tom, (work) => ({
      ...work,
      find: {
        kind: 'find',
        actions: [],
        findings: [
          { part: 'people', fault: 'no-such-fault', remedy: 'report', confidence: 'certain' },
        ],
      },
    }));
    const toms = (await sittings()).find(({ person }) => person === tom.person);
    expect(toms?.judgements).toEqual([{ confidence: 0.95, right: false }]);
    expect(Object.values(toms?.faults ?? {}).some(Boolean)).toBe(false);
  });

  it('each have a form of their own, and come in the order they were handed in', async () => {
    const all = await sittings();
    expect(all.map(({ person }) => person)).toEqual([mira.person, tom.person]);
    expect(testFigures(all, null).exposure.value).toMatchObject({ repeats: 0, formOverlap: 0 });
  });

  it('are none of another organisation, and none of another version', async () => {
    expect(await blueprintSittings(site, 'elsewhere', BLUEPRINT)).toEqual([]);
    expect(await blueprintSittings(site, trainer.org, { ...BLUEPRINT, version: 2 })).toEqual([]);
  });
});

describe('what somebody is offered to practise', () => {
  it('comes from a test only once its result is out', async () => {
    const jess = await addMember(site, trainer, 'trainee', 'Jess Lindqvist');
    const setting = { person: jess.person, blueprint: BLUEPRINT.id, feedback: 'later' };
    granted(await setSitting(site, trainer, setting));
    const attempt = await sit(jess, ({ find: _find, ...rest }) => rest);
    const met = () => faultsMet(site, jess.org, jess.person, []);
    expect(await met()).toEqual([]);
    granted(await releaseSitting(site, trainer, { attempt }));
    const missed = await met();
    expect(missed.length).toBeGreaterThanOrEqual(6);
    expect(missed.every(({ right }) => !right)).toBe(true);
    expect(practiseNext(missed, new Date().toISOString())).toHaveLength(3);
  });

  it('turns up on the next bench to practise at, and no test is bent to it', async () => {
    const ann = await addMember(site, trainer, 'trainee', 'Ann Other');
    await sit(ann, ({ find: _find, ...rest }) => rest, 'walk-and-name');
    const met = await faultsMet(site, ann.org, ann.person, []);
    const now = new Date();
    const wanted = practiseNext(met, now.toISOString()).map(({ id }) => id);
    const planted = (rules: ReturnType<typeof rulesFor>, seed: string) =>
      makeForm(rules, seed).tasks.flatMap((task) =>
        task.kind === 'find' ? task.planted.map(({ fault }) => fault) : [],
      );
    const rules = rulesFor('walk-and-name');
    const hits = (seed: string) => planted(rules, seed).some((fault) => wanted.includes(fault));
    const asked = Array.from({ length: 12 }, () => freshSeed(site, ann, rules, now));
    const share = (await Promise.all(asked)).filter(hits).length / 12;
    const byLuck =
      Array.from({ length: 200 }, (_, i) => hits(`luck ${i}`)).filter(Boolean).length / 200;
    expect(share).toBeGreaterThan(byLuck + 0.3);
    const test = rulesFor('rip-test');
    const seeds = ['any', 'other'];
    expect(chooseSeed(test, [], seeds)).toBe('any');
    expect(chooseSeed(test, ['no-such-fault'], seeds)).toBe('any');
  }, 30_000);
});
