import { printResetLink, RESET_HOURS } from '../accounts/index.ts';
import { openOwnStore } from './open-own-store.ts';
import { BadInput, runCommand } from './read-input.ts';
import { readOptions } from './read-options.ts';

/**
 * Prints a link for a new password, for a trainer or employer who has lost every way in and whom nobody can help. May
 * run while the site runs. Exit code 0: done; 2: bad input, with one sentence on standard error.
 */

const USAGE = 'Usage: npm run --silent unlock -- E-MAIL';

async function unlock(words: readonly string[]): Promise<number> {
  const { values, positionals } = readOptions(
    {
      args: [...words],
      options: { help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
    },
    USAGE,
  );
  if (values.help === true) {
    process.stdout.write(`${USAGE}\n`);
    return 0;
  }
  const [email, ...more] = positionals;
  if (email === undefined || more.length > 0) throw new BadInput(USAGE);
  const {
    store,
    settings: { port, siteUrl },
  } = await openOwnStore();
  try {
    const made = await printResetLink(email, { store });
    if (!made.ok) throw new BadInput(made.refusal.message);
    const address = new URL(made.value.path, siteUrl ?? `http://localhost:${port}`);
    process.stdout.write(
      `${address.href}\n\nOpen it within ${RESET_HOURS} hours, once. Until then the old password works. ` +
        'Passkeys and codes go with it.\nIt is in the log that a link was made here, and the person is told.\n',
    );
    return 0;
  } finally {
    await store.close();
  }
}

await runCommand(unlock, 'No link was made');
