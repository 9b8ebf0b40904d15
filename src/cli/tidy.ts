import { type Swept, sweepExpired } from '../accounts/index.ts';
import { openOwnStore } from './open-own-store.ts';
import { runCommand } from './read-input.ts';
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
  // opens nothing that forgets: a count must erase nothing
  const { store } = await openOwnStore();
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
