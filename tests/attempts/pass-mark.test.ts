import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Role, Site, Viewer } from '../../src/accounts/index.ts';
import {
  adoptMark,
  openMark,
  passMarkInForce,
  rateBlueprint,
  viewMark,
} from '../../src/attempts/index.ts';
import { loadBlueprints } from '../../src/store/content-files.ts';
import { granted, makeTempSite, refused } from '../accounts/temp-site.ts';

let site: Site;
let remove: () => Promise<void>;
beforeAll(async () => {
  ({ site, remove } = await makeTempSite());
});
afterAll(() => remove());

const as = (person: string, org: string, role: Role = 'trainer'): Viewer => ({
  person,
  org,
  name: person,
  email: `${person}@alderlane.example`,
  role,
  signedInAt: '2026-11-25T08:00:00.000Z',
});
const blueprint = () => {
  const found = loadBlueprints(site.contentDir).get('rip-test');
  if (found === undefined) throw new Error('no rip-test');
  return found;
};
/** Every part at one share. */
const ratings = async (who: Viewer, share: number) => {
  const { setting } = granted(await openMark(site, who, 'rip-test'));
  return {
    version: setting.blueprint.version,
    ratings: Object.fromEntries(setting.lines.map(({ id }) => [id, share])),
  };
};
const rate = async (who: Viewer, share: number) =>
  rateBlueprint(site, who, 'rip-test', await ratings(who, share));
const look = async (who: Viewer) => granted(await openMark(site, who, 'rip-test')).view;
const adopt = (who: Viewer, mark: number) =>
  adoptMark(site, who, 'rip-test', { version: blueprint().version, mark });

describe('setting a pass mark', () => {
  const ruth = as('ruth', 'o-1');
  const dev = as('dev', 'o-1');

  it('begins as not set yet, and nobody alone can set it', async () => {
    expect(await passMarkInForce(site, 'o-1', blueprint())).toBe('not-set-yet');
    expect(granted(await rate(ruth, 0.8))).toEqual({ round: 1 });
    expect(refused(await adopt(ruth, 80))).toMatchObject({
      status: 409,
      message: 'No mark can be put in force before you and another trainer have rated the test.',
    });
  });

  it('shows nobody the ratings of others before their own', async () => {
    const before = await look(dev);
    expect(before).toMatchObject({ given: 0, next: 1, shown: [], settled: null, judges: 1 });
    expect(before.mayAdopt).toBe(false);
    expect(refused(await adopt(dev, 80)).status).toBe(409);
    granted(await rate(dev, 0.6));
    expect((await look(dev)).shown.map(({ person }) => person)).toEqual(['ruth', 'dev']);
  });

  it('lets nobody rate one round twice before another has rated it', async () => {
    const alone = as('alone', 'o-alone');
    granted(await rate(alone, 0.5));
    expect(refused(await rate(alone, 0.6)).message).toBe(
      'You have rated this test; a second round begins when another trainer has rated it too.',
    );
  });

  it('keeps a second round as closed as the first', async () => {
    granted(await rate(dev, 0.7));
    const ruths = await look(ruth);
    // look-alikes cost too, so .8 and .6 do not come to 70: what counts is that .7 is not in it
    expect(ruths.shown.map(({ person, round }) => `${person} ${round}`)).toEqual([
      'ruth 1',
      'dev 1',
    ]);
    expect(ruths.mayAdopt).toBe(false);
    expect(refused(await adopt(ruth, ruths.settled?.mark ?? 0)).message).toBe(
      'Another trainer has gone on to the next round; give your own ratings for it first.',
    );
    granted(await rate(ruth, 0.7));
    expect((await look(ruth)).settled?.deviation).toBeCloseTo(0, 9);
  });

  it('puts in force only the mark that was looked at, records it, and does not reach back', async () => {
    const { settled } = await look(ruth);
    const mark = settled?.mark ?? 0;
    expect(mark).toBeGreaterThan(50);
    expect(refused(await adopt(ruth, mark + 1)).message).toContain(`come to a mark of ${mark} now`);
    expect(granted(await adopt(ruth, mark))).toEqual({ mark });
    expect(refused(await adopt(dev, mark)).message).toBe('This mark is in force already.');
    expect(await passMarkInForce(site, 'o-1', blueprint())).toMatchObject({
      mark,
      method: 'modified-angoff',
    });
    const stored = await site.store.events({ org: 'o-1', kinds: ['pass-mark.adopted'] });
    const before = new Date(Date.parse(stored[0]?.event?.received ?? '') - 1).toISOString();
    expect(await passMarkInForce(site, 'o-1', blueprint(), before)).toBe('not-set-yet');
    const rated = await site.store.events({ org: 'o-1', kinds: ['pass-mark.rated'] });
    const last = rated.filter(({ event }) => event?.body.round === 2).map(({ event }) => event?.id);
    expect([...(stored[0]?.event?.body.ratings ?? [])].sort()).toEqual([...last].sort());
  });

  it('holds in no other organisation and for no other version', async () => {
    expect(await passMarkInForce(site, 'o-2', blueprint())).toBe('not-set-yet');
    const changed = { ...blueprint(), version: blueprint().version + 1 };
    expect(await passMarkInForce(site, 'o-1', changed)).toBe('not-set-yet');
  });

  it('enters a form once that is sent twice', async () => {
    const who = as('twice', 'o-3');
    const form = {
      id: '019cb323-e56d-7d6d-ad6d-6d6d6d6d6d6d',
      ...(await ratings(who, 0.5)),
    };
    expect(granted(await rateBlueprint(site, who, 'rip-test', form))).toEqual({ round: 1 });
    expect(granted(await rateBlueprint(site, who, 'rip-test', form))).toEqual({ round: 1 });
    const { setting } = granted(await openMark(site, who, 'rip-test'));
    expect(setting.rated).toHaveLength(1);
    expect(viewMark(setting, 'twice').given).toBe(1);
  });
});

describe('what is refused', () => {
  it.each(['trainee', 'employer'] as const)('a %s, to rate and to set', async (role) => {
    const who = as('x', 'o-1', role);
    const body = { version: 1, ratings: {} };
    expect(refused(await rateBlueprint(site, who, 'rip-test', body)).status).toBe(403);
    expect(refused(await adopt(who, 70)).status).toBe(403);
  });

  it('somebody not signed in, and a test that is not there', async () => {
    expect(refused(await rateBlueprint(site, null, 'rip-test', {})).status).toBe(401);
    const who = as('x', 'o-4');
    expect(refused(await rateBlueprint(site, who, 'constructor', {}))).toMatchObject({
      status: 404,
      message: 'There is no test of that name.',
    });
  });

  it('bad input, in one sentence that names the field and its range', async () => {
    const who = as('x', 'o-4');
    const good = await ratings(who, 0.5);
    const said = async (body: unknown) =>
      refused(await rateBlueprint(site, who, 'rip-test', body)).message;
    expect(await said({ ...good, ratings: { ...good.ratings, set: 1.2 } })).toBe(
      'ratings.set must be a share from 0 to 1.',
    );
    expect(await said({ ...good, ratings: { ...good.ratings, set: undefined } })).toBe(
      'ratings.set must be a share from 0 to 1.',
    );
    expect(await said({ ...good, ratings: { ...good.ratings, luck: 1 } })).toBe(
      'ratings has no part named luck.',
    );
    expect(await said({ ...good, version: 99 })).toContain('The test has been changed');
    expect(await said(undefined)).toBe(
      'The request must be a group of fields: id, version, ratings.',
    );
    expect((await openMark(site, who, 'rip-test')).ok && (await look(who)).given).toBe(0);
  });
});
