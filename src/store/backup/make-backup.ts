import { copyFileSync, existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { openCheckpoint } from '../../records/index.ts';
import { openSiteKey } from '../site-key.ts';
import { BackupProblem, sayReason } from './backup-problem.ts';
import { postgresEngine } from './copy-postgres.ts';
import { hasSqlite, sqliteEngine } from './copy-sqlite.ts';
import type { BackupEngine, Copied } from './engine.ts';
import { MANIFEST, type Manifest, writeManifest } from './manifest.ts';
import { type Tell, watchFile } from './progress.ts';
import { settle, sumFile } from './write-whole.ts';

export const KEY_FILE = 'site-key.json';

export type BackupOrder = {
  /** the data folder, in use or not: it holds the site key, and the store unless that is in a database */
  readonly dataDir: string;
  /** address of the PostgreSQL database, when the store is in one */
  readonly databaseUrl?: string;
  /** where the backup goes: a folder that is empty or not there yet */
  readonly folder: string;
  /** where the site key goes instead of into the folder */
  readonly keyFile?: string;
  /** version of this site */
  readonly version: string;
  readonly now: Date;
  /** told how far it is */
  readonly tell?: Tell;
  /** another way to copy the store, for tests */
  readonly copy?: (to: string) => Promise<Copied>;
};

export const engineOf = (dataDir: string, databaseUrl: string | undefined): BackupEngine =>
  databaseUrl === undefined ? sqliteEngine(dataDir) : postgresEngine(databaseUrl);

/** Makes a folder nobody else may look into, or takes one that is empty. */
export function takeEmptyFolder(folder: string, what: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    if (readdirSync(folder).length === 0) return;
  } catch (error) {
    throw new BackupProblem(`${folder} cannot be used for ${what}: ${sayReason(error)}.`);
  }
  throw new BackupProblem(`${folder} is not empty; name an empty or a new folder for ${what}.`);
}

function putKey(from: string, to: string): void {
  if (existsSync(to)) {
    throw new BackupProblem(`${to} is there already; name a new file for the site key.`);
  }
  mkdirSync(dirname(to), { recursive: true, mode: 0o700 });
  // 0600 as the key itself: copyFile keeps the rights of the file it copies
  copyFileSync(from, to);
  settle(to);
  settle(dirname(to));
}

/** A copy whose newest checkpoint is not of this key could never go on. */
async function checkHead(log: Manifest['log'], publicKey: Uint8Array<ArrayBuffer>): Promise<void> {
  const opened = await openCheckpoint(log.checkpoint, [publicKey]);
  if (!opened.ok || opened.checkpoint.size !== log.size) {
    throw new BackupProblem(
      'The site key did not sign the newest checkpoint of this log, so there would be no way to go on from a backup; put the right key back first.',
    );
  }
}

/**
 * Backs up a store that may be in use: a copy as of one moment, the site key, and last of all the manifest.
 * When it fails, what it has written is taken away again.
 *
 * @throws BackupProblem with one sentence
 */
export async function makeBackup(order: BackupOrder): Promise<Manifest> {
  const { dataDir, databaseUrl, folder, keyFile, version, now, tell } = order;
  const engine = engineOf(dataDir, databaseUrl);
  const { copy = engine.copy } = order;
  const keySource = join(dataDir, KEY_FILE);
  if (databaseUrl === undefined && !hasSqlite(dataDir)) {
    throw new BackupProblem(`${dataDir} holds no store to back up.`);
  }
  const { publicKey } = await openSiteKey(keySource, true).catch((error: unknown) => {
    throw new BackupProblem(sayReason(error).concat('.'));
  });
  takeEmptyFolder(folder, 'the backup');
  const keyTarget = resolve(keyFile ?? join(folder, KEY_FILE));
  const written: string[] = [];
  try {
    const target = join(folder, engine.file);
    written.push(target, `${target}-journal`);
    const { log, tables } = await watchFile(copy(target), target, (done) =>
      tell?.({ step: 'copy', done, whole: null }),
    );
    settle(target);
    await checkHead(log, publicKey);
    putKey(keySource, keyTarget);
    written.push(keyTarget);
    const manifest: Manifest = {
      format: 'backup/1',
      engine: engine.name,
      madeAt: now.toISOString(),
      site: { version, tables },
      log,
      files: [await sumFile(target, tell)],
      key: {
        kept: keyFile === undefined ? 'inside' : 'apart',
        file: { ...(await sumFile(keyTarget)), name: KEY_FILE },
      },
    };
    settle(folder);
    written.push(join(folder, `${MANIFEST}.unfinished`));
    writeManifest(folder, manifest);
    return manifest;
  } catch (error) {
    for (const path of written) rmSync(path, { force: true });
    if (error instanceof BackupProblem) throw error;
    throw new BackupProblem(`The backup was not made: ${sayReason(error)}.`);
  }
}
