import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { BackupProblem } from './backup-problem.ts';
import { KEY_FILE } from './make-backup.ts';
import { type FileSum, type Manifest, readManifest } from './manifest.ts';
import type { Tell } from './progress.ts';
import { sumFile } from './write-whole.ts';

async function checkFile(path: string, wanted: FileSum, tell?: Tell): Promise<void> {
  if (!existsSync(path)) {
    throw new BackupProblem(`${path} is missing, so this backup is not used.`);
  }
  const { bytes, sha256 } = await sumFile(path, tell);
  if (bytes !== wanted.bytes) {
    throw new BackupProblem(
      `${path} has ${bytes} bytes and was written with ${wanted.bytes}, so this backup is not used.`,
    );
  }
  if (sha256 !== wanted.sha256) {
    throw new BackupProblem(
      `${path} was altered after it was written, so this backup is not used.`,
    );
  }
}

/** Where the site key of a backup lies. @throws BackupProblem when it lies apart and nobody said where */
export function keyPathOf(folder: string, manifest: Manifest, keyFile?: string): string {
  if (keyFile !== undefined) return keyFile;
  if (manifest.key.kept === 'inside') return join(folder, KEY_FILE);
  throw new BackupProblem(
    'The site key of this backup is kept apart from it; say where with --key FILE.',
  );
}

/**
 * Holds every file of a backup against its manifest, before anything of it is used.
 * @throws BackupProblem with one sentence
 */
export async function checkBackup(
  folder: string,
  keyFile?: string,
  tell?: Tell,
): Promise<Manifest> {
  const manifest = readManifest(folder);
  for (const file of manifest.files) await checkFile(join(folder, file.name), file, tell);
  await checkFile(keyPathOf(folder, manifest, keyFile), manifest.key.file);
  return manifest;
}
