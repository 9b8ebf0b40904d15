import { copyFileSync, existsSync, mkdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { auditLog } from '../../records/index.ts';
import { openSiteKey } from '../site-key.ts';
import { openStore, type StorePlace } from '../store.ts';
import { BackupProblem, sayReason } from './backup-problem.ts';
import { checkBackup, keyPathOf } from './check-backup.ts';
import { STORE_FILE } from './copy-sqlite.ts';
import { engineOf, KEY_FILE, takeEmptyFolder } from './make-backup.ts';
import type { Manifest } from './manifest.ts';
import { countPassed, type Tell, watchFile } from './progress.ts';
import { settle } from './write-whole.ts';

/** Where a restore works until it has been audited. The site does not start beside it. */
export const UNFINISHED_RESTORE = 'unfinished-restore';

export type Restored = {
  readonly manifest: Manifest;
  /** what is wrong with the log, one sentence; null when it is whole */
  readonly fault: string | null;
  /** milliseconds each step took */
  readonly took: { readonly check: number; readonly copy: number; readonly audit: number };
};

/** Reads the whole log of a restored store: what is wrong with it, or null. */
async function auditRestored(
  place: StorePlace,
  folder: string,
  { manifest, tell }: { manifest: Manifest; tell: Tell | undefined },
): Promise<string | null> {
  const siteKey = await openSiteKey(join(folder, KEY_FILE), true);
  const store = await openStore(place, siteKey);
  const count = (done: number) => tell?.({ step: 'audit', done, whole: manifest.log.size });
  try {
    const { ok, size, root, firstBad, checkpoints } = await auditLog(
      countPassed(store.readChunks(), count),
      {
        checkpoints: [manifest.log.checkpoint, await store.checkpoint()],
        publicKeys: [siteKey.publicKey],
        depth: 'events',
      },
    );
    const same = size === manifest.log.size && root === manifest.log.root;
    if (ok && same) return null;
    return (
      (firstBad && `event ${firstBad.index}: ${firstBad.sentence}`) ??
      checkpoints.find((line) => !line.ok)?.sentence ??
      `it holds ${size} events and the backup was made with ${manifest.log.size}.`
    );
  } finally {
    await store.close();
  }
}

export type RestoreOrder = {
  readonly folder: string;
  /** empty, or not there yet; what was in the folder of a backup goes here */
  readonly dataDir: string;
  /** address of an empty PostgreSQL database, when the backup is of one */
  readonly databaseUrl?: string;
  /** the site key, when it was kept apart */
  readonly keyFile?: string;
  /** a log that was not whole when it was backed up: `refuse` (usual), or `keep` it as it lay there */
  readonly faults?: 'refuse' | 'keep';
  /** told how far it is */
  readonly tell?: Tell;
};

const OTHER_ENGINE = {
  sqlite:
    'This backup is of a store in one file; take DATABASE_URL away, restore it into a data folder, and move it afterwards.',
  postgresql:
    'This backup is of a PostgreSQL database; set DATABASE_URL to an empty one and restore it there.',
} as const;

/**
 * Puts a backup into an empty data folder or database: digests first, the whole log after, and only then the
 * files take their places, the store before the key, so that what was cut short cannot be started by mistake.
 *
 * @throws BackupProblem with one sentence; what was empty is empty again then
 */
export async function restoreBackup(order: RestoreOrder): Promise<Restored> {
  const { folder, dataDir, databaseUrl, keyFile, faults = 'refuse', tell } = order;
  const began = performance.now();
  const manifest = await checkBackup(folder, keyFile, tell);
  const engine = engineOf(dataDir, databaseUrl);
  if (manifest.engine !== engine.name) throw new BackupProblem(OTHER_ENGINE[manifest.engine]);
  await engine.checkEmpty();
  takeEmptyFolder(dataDir, 'what is restored');
  const checked = performance.now();
  const work = join(dataDir, UNFINISHED_RESTORE);
  try {
    mkdirSync(work, { mode: 0o700 });
    copyFileSync(keyPathOf(folder, manifest, keyFile), join(work, KEY_FILE));
    const whole = manifest.files.reduce((sum, { bytes }) => sum + bytes, 0);
    const place = await watchFile(
      engine.load(join(folder, engine.file), work),
      join(work, engine.file),
      (done) => tell?.({ step: 'load', done, whole }),
    );
    const copied = performance.now();
    const fault = await auditRestored(place, work, { manifest, tell });
    if (fault !== null && faults === 'refuse') {
      throw new BackupProblem(
        `The log of this backup is not whole, so it is not used; to have it as it lay there all the same, restore with --as-it-is (${fault.replace(/\.$/, '')}).`,
      );
    }
    for (const name of [STORE_FILE, KEY_FILE]) {
      if (!existsSync(join(work, name))) continue;
      settle(join(work, name));
      renameSync(join(work, name), join(dataDir, name));
    }
    rmdirSync(work);
    settle(dataDir);
    const done = performance.now();
    const took = { check: checked - began, copy: copied - checked, audit: done - copied };
    return { manifest, fault, took };
  } catch (error) {
    await engine.clear();
    for (const name of [UNFINISHED_RESTORE, STORE_FILE, KEY_FILE]) {
      rmSync(join(dataDir, name), { recursive: true, force: true });
    }
    if (error instanceof BackupProblem) throw error;
    throw new BackupProblem(`The backup was not restored: ${sayReason(error)}.`);
  }
}
