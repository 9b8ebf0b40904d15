import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSiteKey, openStore, type PostgresPlace, type Store } from '../../src/store/index.ts';
import { runSql, sharedDatabase } from '../helpers/postgres.ts';

export type TwoRoles = {
  /** as the site runs: a plain role, and the one its tables belong to */
  readonly place: PostgresPlace & { readonly ownerUrl: string };
  /** as somebody above all rules */
  readonly rootUrl: string;
  readonly siteRole: string;
  readonly folder: string;
  readonly open: (place?: PostgresPlace) => Promise<Store>;
  readonly remove: () => Promise<void>;
};

/** An empty database that belongs to one role and is used by another, neither of them above the rules. */
export async function makeTwoRoles(): Promise<TwoRoles> {
  const folder = mkdtempSync(join(tmpdir(), 'roles-test-'));
  const database = await sharedDatabase();
  const mark = randomBytes(4).toString('hex');
  const [ownerRole, siteRole] = [`owner_${mark}`, `site_${mark}`];
  const as = (role: string): string => {
    const url = new URL(database.url);
    url.username = role;
    return url.href;
  };
  const name = new URL(database.url).pathname.slice(1);
  await runSql(
    database.url,
    `create role ${ownerRole} login`,
    `create role ${siteRole} login`,
    `alter database ${name} owner to ${ownerRole}`,
    `alter schema public owner to ${ownerRole}`,
  );
  const place = { url: as(siteRole), ownerUrl: as(ownerRole) };
  const siteKey = await openSiteKey(join(folder, 'site-key.json'), false);
  return {
    place,
    rootUrl: database.url,
    siteRole,
    folder,
    open: (other = place) => openStore(other, siteKey),
    async remove() {
      const cluster = new URL(database.url);
      cluster.pathname = '/postgres';
      await database.remove();
      await runSql(cluster.href, `drop role ${siteRole}`, `drop role ${ownerRole}`);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
