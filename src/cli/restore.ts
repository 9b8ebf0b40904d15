import { restoreBackup } from '../store/backup/index.ts';
import { readBackupArguments, saidPlainly, sayTime } from './backup-arguments.ts';
import { makeProgressLine } from './progress-line.ts';
import { runCommand } from './read-input.ts';

/**
 * Puts a backup into an empty data folder, after every digest was checked, and audits its log. Exit code
 * 0: restored; 1: restored as it lay there, with a fault; 2: refused, with one sentence on standard error and nothing left in the folder.
 */

const USAGE = 'Usage: npm run --silent restore -- FOLDER [--data FOLDER] [--key FILE] [--as-it-is]';

async function restore(words: readonly string[]): Promise<number> {
  const asked = readBackupArguments(words, USAGE);
  if (asked === null) {
    process.stdout.write(`${USAGE}\n`);
    return 0;
  }
  const progress = makeProgressLine();
  const { manifest, fault, took } = await saidPlainly(
    restoreBackup({ ...asked, tell: progress.tell }),
  ).finally(progress.clear);
  process.stdout.write(
    [
      `Restored ${manifest.log.size} events into ${asked.databaseUrl === undefined ? asked.dataDir : 'the database'}, as they were at ${manifest.madeAt}.`,
      `Digests ${sayTime(took.check)}, copy ${sayTime(took.copy)}, audit of the whole log ${sayTime(took.audit)}.`,
      fault === null ? 'All is as the backup says.' : `The log is NOT whole: ${fault}`,
      '',
    ].join('\n'),
  );
  return fault === null ? 0 : 1;
}

await runCommand(restore, 'The backup was not restored');
