import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Swept, sweepExpired } from '../accounts/index.ts';
import { readSettings } from '../server/index.ts';
import { openSiteKey, openStore } from '../store/index.ts';
import { BadInput, runCommand } from './read-input.ts';
import { readOptions } from './read-options.ts';

/**
 * Counts what is past its period, by kind; with --do erases it as well. Exit code 0: done; 2: bad input,
 * with one sentence on standard error.
 */

const USAGE = 'Usage: npm run --silent tidy -- [--do]';

const NAMES: Readonly<Record<keyof Swept, string>> = {
  session: 'sessions',
  ticket: 'sign-in tickets and tries',
  invitation: 'invitations',
  calendar: 'calendar addresses',
  openSitting: 'open sittings',
  photo: 'photos',
};

function readWords(words: readonly string[]) {
  return readOptions(
    {
      args: [...words],
      options: { do: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
    },
    USAGE,
  ).values;
}

async function tidy(words: readonly string[]): Promise<number> {
  const asked = readWords(words);
  if (asked.help === true) {
    process.stdout.write(`${USAGE}\n`);
    return 0;
  }
  const read = readSettings(process.env);
  if (!read.ok) throw new BadInput(read.message);
  const { dataDir, database } = read.settings;
  const file = join(dataDir, 'store.sqlite');
  if (!database && !existsSync(file))
    throw new BadInput(`${dataDir} holds no store; set DATA_DIR.`);
  const siteKey = await openSiteKey(join(dataDir, 'site-key.json'), true);
  // not openSite, which forgets some of it while it opens: a count must erase nothing
  const store = await openStore(database ?? { file }, siteKey);
  try {
    const swept = await sweepExpired(store.db, new Date(), asked.do === true ? 'erase' : 'count');
    for (const [kind, name] of Object.entries(NAMES))
      process.stdout.write(`${String(swept[kind as keyof Swept]).padStart(8)}  ${name}\n`);
    process.stdout.write(
      asked.do === true ? 'Erased.\n' : 'Nothing was erased; --do erases what is counted here.\n',
    );
    return 0;
  } finally {
    await store.close();
  }
}

await runCommand(tidy, 'What is past its period cannot be tidied');
