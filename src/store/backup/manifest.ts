import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { canonicalText, InstantSchema } from '../../records/index.ts';
import { BackupProblem } from './backup-problem.ts';
import { writeWhole } from './write-whole.ts';

/** Written last: a folder without it is no backup, whatever else lies there. */
export const MANIFEST = 'manifest.json';

const FileSchema = z.strictObject({
  /** a plain name: a manifest must not reach out of its folder */
  name: z.string().regex(/^[a-z0-9][a-z0-9.-]{0,63}$/),
  bytes: z.int().nonnegative(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

const ManifestSchema = z.strictObject({
  format: z.literal('backup/1'),
  engine: z.enum(['sqlite', 'postgresql']),
  madeAt: InstantSchema,
  /** version of the site that made it, and the newest change of its tables */
  site: z.strictObject({ version: z.string().max(40), tables: z.string().max(80) }),
  /** the log as it lies in the copy: events, RFC 6962 root in base 64, signed note */
  log: z.strictObject({
    size: z.int().nonnegative(),
    root: z.string().max(100),
    checkpoint: z.string().max(4_000),
  }),
  /** everything but the manifest and the site key */
  files: z.array(FileSchema).min(1).max(20),
  /** `inside` the folder, or kept `apart` */
  key: z.strictObject({ kept: z.enum(['inside', 'apart']), file: FileSchema }),
});

export type Manifest = z.infer<typeof ManifestSchema>;
export type FileSum = Manifest['files'][number];

const sumOf = (manifest: Manifest): string =>
  createHash('sha256').update(canonicalText(manifest)).digest('hex');

/** Writes the manifest, whole or not at all. `sum` lets a slip in the manifest itself be found. */
export function writeManifest(folder: string, manifest: Manifest): void {
  const text = `${JSON.stringify({ ...manifest, sum: sumOf(manifest) }, null, 2)}\n`;
  writeWhole(join(folder, MANIFEST), text);
}

/** @throws BackupProblem with one sentence */
export function readManifest(folder: string): Manifest {
  let text: string;
  try {
    text = readFileSync(join(folder, MANIFEST), 'utf8');
  } catch {
    throw new BackupProblem(
      `${folder} holds no whole backup: its ${MANIFEST}, which is written last, is missing.`,
    );
  }
  const spoiled = `The ${MANIFEST} of ${folder} was altered or cut short, so this backup is not used.`;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new BackupProblem(spoiled);
  }
  const read = z.object({ sum: z.string() }).loose().safeParse(value);
  if (!read.success) throw new BackupProblem(spoiled);
  const { sum, ...rest } = read.data;
  const manifest = ManifestSchema.safeParse(rest);
  if (!manifest.success || sumOf(manifest.data) !== sum) throw new BackupProblem(spoiled);
  return manifest.data;
}
