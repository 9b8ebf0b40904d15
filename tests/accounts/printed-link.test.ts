import { spawnSync } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printResetLink, resetNewsFor, signIn, useResetLink } from '../../src/accounts/index.ts';
import { asOrganisation, asSite } from '../../src/store/index.ts';
import { SLOW } from '../store/temp-store.ts';
import {
  addMember,
  granted,
  refused,
  requestWith,
  SITES,
  setUp,
  type TempSite,
  tokenOf,
} from './temp-site.ts';

const NEW = 'a quite new password';

/** Somebody stands at the machine: the workshop's only employer has lost every way in. */
describe.each(SITES)('a link printed on the machine of the site, on %s', (_engine, makeSite) => {
  let temp: TempSite;
  let shop: { org: string; boss: string };
  beforeAll(async () => {
    temp = await makeSite();
    await asSite(async () => {
      const trainer = await setUp(temp.site);
      await addMember(temp.site, trainer, 'trainee', 'Mira Holt');
      const { person } = await addMember(temp.site, trainer, 'employer', 'Anna Weir');
      shop = { org: trainer.org, boss: person };
    });
  }, SLOW);
  afterAll(() => temp.remove(), SLOW);

  it('sets a new password once, is logged without a name, and is told to its owner', async () => {
    const { site } = temp;
    const first = granted(await printResetLink(' Anna.Weir@x.example ', site));
    const { path } = granted(await printResetLink('anna.weir@x.example', site));
    await asSite(async () => {
      expect(refused(await useResetLink(tokenOf(first.path), NEW, site)).status).toBe(410);
      expect(granted(await useResetLink(tokenOf(path), NEW, site)).person).toBe(shop.boss);
      expect(refused(await useResetLink(tokenOf(path), NEW, site)).status).toBe(410);
      const input = { email: 'anna.weir@x.example', password: NEW };
      granted(await signIn(requestWith(), input, null, site));
    });
    await asOrganisation(shop.org, async () => {
      expect(await resetNewsFor(shop.boss, site)).toMatchObject({ by: null, clears: 'everything' });
      const entries = await site.store.events({ org: shop.org, kinds: ['reset-link.printed'] });
      expect(entries.map(({ event }) => [event?.by, event?.about])).toEqual(
        Array(2).fill([shop.org, shop.boss]),
      );
      expect(entries.map(({ text }) => text).join()).not.toMatch(/anna|weir|x\.example/i);
    });
  });

  it('is for nobody who is not here, and for no trainee, whom a trainer can help', async () => {
    expect(refused(await printResetLink('nobody@x.example', temp.site)).status).toBe(404);
    expect(refused(await printResetLink('mira.holt@x.example', temp.site)).status).toBe(403);
  });

  it('comes from one command beside the running site', () => {
    const run = (...words: string[]) =>
      spawnSync(process.execPath, ['src/cli/run.mjs', 'unlock', ...words], {
        encoding: 'utf8',
        env: {
          ...process.env,
          DATA_DIR: temp.dataDir,
          SITE_URL: 'https://saw.alderlane.example',
          DATABASE_URL: temp.database?.url ?? '',
          DATABASE_OWNER_URL: temp.database?.ownerUrl ?? '',
        },
      });
    const made = run('anna.weir@x.example');
    expect(made.stdout).toMatch(
      /^https:\/\/saw\.alderlane\.example\/new-password\/[\w-]{43}\n\nOpen it within 24 hours, once\./,
    );
    expect(made.status).toBe(0);
    const wrong = run('nobody@x.example');
    expect([wrong.status, wrong.stdout]).toEqual([2, '']);
    expect(wrong.stderr).toContain('Nobody here has this e-mail address.');
  });
});
