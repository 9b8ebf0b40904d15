import { makeBackup } from '../store/backup/index.ts';
import { readBackupArguments, saidPlainly, sayBytes, sayTime } from './backup-arguments.ts';
import { makeProgressLine } from './progress-line.ts';
import { runCommand } from './read-input.ts';
import { siteVersion } from './site-folders.ts';

/**
 * Backs up the store into a folder while the site runs. Exit code 0: whole; 2: not made, with one sentence
 * on standard error.
 */

const USAGE = 'Usage: npm run --silent backup -- FOLDER [--data FOLDER] [--key FILE]';

async function backup(words: readonly string[]): Promise<number> {
  const asked = readBackupArguments(words, USAGE);
  if (asked === null) {
    process.stdout.write(`${USAGE}\n`);
    return 0;
  }
  const began = performance.now();
  const progress = makeProgressLine();
  const manifest = await saidPlainly(
    makeBackup({ ...asked, version: siteVersion(), now: new Date(), tell: progress.tell }),
  ).finally(progress.clear);
  const bytes = manifest.files.reduce((sum, file) => sum + file.bytes, 0);
  const keyLine =
    manifest.key.kept === 'apart'
      ? `The site key lies apart, in ${asked.keyFile}.`
      : 'The site key lies in it as well: whoever has it can sign as this site. Keep a copy apart, or put it apart at once with --key FILE.';
  process.stdout.write(
    [
      `Backed up ${manifest.log.size} events, ${sayBytes(bytes)}, into ${asked.folder} in ${sayTime(performance.now() - began)}.`,
      keyLine,
      'Without that key the log cannot go on after a restore.',
      '',
    ].join('\n'),
  );
  return 0;
}

await runCommand(backup, 'The backup was not made');
