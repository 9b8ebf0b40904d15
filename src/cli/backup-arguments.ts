import { parseArgs } from 'node:util';
import { BackupProblem } from '../store/backup/index.ts';
import { BadInput, locate } from './read-input.ts';
import { dataFolder } from './site-folders.ts';

export type BackupArguments = {
  readonly folder: string;
  readonly dataDir: string;
  /** the database, when the store is in one */
  readonly databaseUrl?: string;
  /** a file of its own for the site key, apart from the folder */
  readonly keyFile?: string;
  /** restore only: a log that is not whole is kept as it lay there */
  readonly faults: 'refuse' | 'keep';
};

/**
 * Reads `FOLDER [--data FOLDER] [--key FILE]`. Null when the usage was asked for.
 * @throws BadInput
 */
export function readBackupArguments(
  words: readonly string[],
  usage: string,
): BackupArguments | null {
  let parsed: ReturnType<typeof parseWords>;
  try {
    parsed = parseWords(words);
  } catch (error) {
    const [reason = 'The options cannot be read'] = (error as Error).message.split(/[.\n]/);
    throw new BadInput(`${reason}. ${usage}`);
  }
  const { values, positionals } = parsed;
  if (values.help === true) return null;
  const [folder, ...more] = positionals;
  if (folder === undefined || more.length > 0) {
    throw new BadInput(`Name one folder for the backup. ${usage}`);
  }
  // whoever restores makes the tables
  const databaseUrl = process.env['DATABASE_OWNER_URL'] || process.env['DATABASE_URL'] || undefined;
  return {
    folder: locate(folder),
    dataDir: dataFolder(values.data),
    faults: values['as-it-is'] === true ? 'keep' : 'refuse',
    ...(databaseUrl === undefined ? {} : { databaseUrl }),
    ...(values.key === undefined ? {} : { keyFile: locate(values.key) }),
  };
}

function parseWords(words: readonly string[]) {
  return parseArgs({
    args: [...words],
    allowPositionals: true,
    options: {
      data: { type: 'string' },
      key: { type: 'string' },
      'as-it-is': { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  });
}

/** Turns a problem of a backup into one of what was asked for, so that its sentence is printed alone. */
export async function saidPlainly<Result>(work: Promise<Result>): Promise<Result> {
  return work.catch((error: unknown) => {
    throw error instanceof BackupProblem ? new BadInput(error.message) : error;
  });
}

const UNITS = ['B', 'kB', 'MB', 'GB'] as const;

/** A number of bytes for people: 3 figures. */
export function sayBytes(bytes: number): string {
  let amount = bytes;
  let unit = 0;
  for (; amount >= 1_000 && unit < UNITS.length - 1; unit++) amount /= 1_000;
  return `${unit === 0 ? amount : Number(amount.toPrecision(3))} ${UNITS[unit]}`;
}

/** Milliseconds for people. */
export const sayTime = (ms: number): string =>
  ms < 1_000 ? `${Math.round(ms)} ms` : `${(ms / 1_000).toFixed(1)} s`;
