import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { UNFINISHED_RESTORE } from '../store/backup/index.ts';
import {
  asSite,
  holdsLog,
  isStoreAway,
  openSiteKey,
  openStore,
  type PostgresPlace,
  type SiteKey,
  type Store,
  StoreUnusable,
} from '../store/index.ts';
import { type Auth, makeAuth } from './auth.ts';
import { forgetExpired } from './forget-expired.ts';

/** Everything that is open while the site runs. One per process. */
export type Site = {
  readonly store: Store;
  readonly auth: Auth;
  readonly siteKey: SiteKey;
  /** Folder of the content files, for the loaders. */
  readonly contentDir: string;
  /** Where people reach the site. */
  readonly address: URL;
};

export type SitePlace = {
  /** Folder of the store and the site key; made when missing. */
  readonly dataDir: string;
  readonly contentDir: string;
  /** Where people reach the site; decides whether cookies are Secure. */
  readonly address: URL;
  /** The database when it is PostgreSQL; a SQLite file in the data folder when not given. */
  readonly database?: PostgresPlace | null;
};

/**
 * Makes a folder and those above it. Node's own `recursive` never comes back where a folder that is
 * there says it is not, as /proc does, so each is made by itself, the topmost first.
 */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above);
  // Only its owner may look in: it holds the site key and people's details.
  mkdirSync(folder, { mode: 0o700 });
}

function prepareFolder(dataDir: string): string {
  const folder = resolve(dataDir);
  try {
    makeFolder(folder);
    accessSync(folder, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw unusable(dataDir, error);
  }
  return folder;
}

function unusable(dataDir: string, error: unknown): StoreUnusable {
  const reason = error instanceof Error ? error.message : String(error);
  return new StoreUnusable(
    `The data folder ${dataDir} cannot be used; give this user the right to write there, or set DATA_DIR to another folder (${reason}).`,
  );
}

function unreachable(error: unknown): StoreUnusable {
  const reason = error instanceof Error ? error.message || 'no answer' : String(error);
  return new StoreUnusable(
    isStoreAway(error)
      ? `The database in DATABASE_URL cannot be reached; start it, or correct the address (${reason}).`
      : `The database in DATABASE_URL cannot be used (${reason}).`,
  );
}

/**
 * Opens the store, its key and the accounts in one folder, making them on the first start.
 * @throws StoreUnusable with one sentence for whoever started the site
 */
export async function openSite({
  dataDir,
  contentDir,
  address,
  database = null,
}: SitePlace): Promise<Site> {
  const folder = prepareFolder(dataDir);
  if (existsSync(join(folder, UNFINISHED_RESTORE))) {
    throw new StoreUnusable(
      `A restore into ${dataDir} was cut short; empty that folder and restore the backup again.`,
    );
  }
  try {
    const file = join(folder, 'store.sqlite');
    const place = database ?? { file };
    const siteKey = await openSiteKey(join(folder, 'site-key.json'), await holdsLog(place));
    const store = await openStore(place, siteKey);
    await asSite(() => forgetExpired(store.db, new Date()));
    const auth = makeAuth({ db: store.db, secret: siteKey.deriveSecret('sessions'), address });
    return { store, auth, siteKey, contentDir: resolve(contentDir), address };
  } catch (error) {
    if (error instanceof StoreUnusable) throw error;
    if (database !== null) throw unreachable(error);
    throw unusable(dataDir, error);
  }
}

/*
 * The server runs this module from source and the pages run a bundled copy of it, in one process. The open
 * site is therefore kept on the process itself, or there would be two of them on one file.
 */
const SLOT = Symbol.for('signed-to-saw.site');
type Holder = { [SLOT]?: Promise<Site> | undefined };

function databaseOf(environment: NodeJS.ProcessEnv): PostgresPlace | null {
  const url = environment['DATABASE_URL'];
  return url ? { url, ownerUrl: environment['DATABASE_OWNER_URL'] || undefined } : null;
}

/** The site of this process, opened on first use with what the environment says. */
export function getSite(): Promise<Site> {
  const holder = globalThis as Holder;
  holder[SLOT] ??= openSite({
    dataDir: process.env['DATA_DIR'] || 'data',
    contentDir: 'content',
    address: new URL(process.env['SITE_URL'] || 'http://localhost'),
    database: databaseOf(process.env),
  }).catch((error: unknown) => {
    // The next request tries again: the disk may have been given back.
    holder[SLOT] = undefined;
    throw error;
  });
  return holder[SLOT];
}

/** Makes an open site the one of this process, or null to forget it. */
export function useSite(site: Site | null): void {
  (globalThis as Holder)[SLOT] = site === null ? undefined : Promise.resolve(site);
}
