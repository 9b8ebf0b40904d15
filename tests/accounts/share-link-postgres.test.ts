import { resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askForRoute } from '../../src/accounts/asked-by.ts';
import {
  endShareLink,
  makeShareLink,
  openShare,
  openSite,
  type Site,
  shareLinksOf,
  type Viewer,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { asOrganisation, asSite, asSomebody } from '../../src/store/index.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import { SLOW } from '../store/temp-store.ts';
import { makeTwoRoles, type TwoRoles } from '../store/two-roles.ts';
import { granted, setUp } from './temp-site.ts';

/** Row-level security shows a connection the rows of whoever asks: who holds a link belongs to no organisation. */
describe.skipIf(!hasPostgres())('a link for an inspector behind the walls of PostgreSQL', () => {
  let roles: TwoRoles;
  let site: Site;
  let trainer: Viewer;
  let token = '';
  const asHolder = <Result>(route: string, work: () => Result): Result =>
    asSomebody(() => {
      askForRoute(route, null);
      return work();
    });

  beforeAll(async () => {
    roles = await makeTwoRoles();
    site = await openSite({
      dataDir: roles.folder,
      contentDir: resolve(import.meta.dirname, '../../content'),
      address: new URL('http://localhost'),
      database: roles.place,
    });
    trainer = await asSite(() => setUp(site));
    const until = new Date(Date.now() + 7 * 86_400_000).toISOString().slice(0, 10);
    const asked = { id: newId(), purpose: 'Yearly inspection', until, people: [], bench: null };
    const made = await asOrganisation(trainer.org, () => makeShareLink(trainer, asked, site));
    token = granted(made).replace('/shared/', '');
  }, SLOW);
  afterAll(async () => {
    await site.store.close();
    await roles.remove();
  }, SLOW);

  it.each(['/shared/[token]', '/shared/[token]/[file]', '/de/shared/[token]'])(
    'opens at %s for whoever holds it',
    async (route) => {
      const link = await asHolder(route, () => openShare(token, site));
      expect(link).toMatchObject({ org: trainer.org, purpose: 'Yearly inspection' });
    },
  );

  it('opens nothing for another organisation, nor where nobody said who asks', async () => {
    expect(await asOrganisation('org-other', () => openShare(token, site))).toBeNull();
    expect(await asHolder('/who-may', () => openShare(token, site))).toBeNull();
    expect(await asOrganisation('org-other', () => shareLinksOf(trainer.org, site))).toEqual([]);
  });

  it('shows its openings to its own organisation, and opens nothing once that ended it', async () => {
    await asOrganisation(trainer.org, async () => {
      const [link] = await shareLinksOf(trainer.org, site);
      expect(link).toMatchObject({ openings: 3 });
      const told = await site.store.events({ org: trainer.org, kinds: ['share.opened'] });
      expect(told.map(({ event }) => event?.body.openings)).toEqual([1]);
      granted(await endShareLink(trainer, link?.id ?? '', site));
    });
    expect(await asHolder('/shared/[token]', () => openShare(token, site))).toBeNull();
  });
});
