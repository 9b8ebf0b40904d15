import { resolve } from 'node:path';
import { fillDemoWorkshop, openSite } from '../accounts/index.ts';
import { readSettings } from '../server/index.ts';
import { asSite } from '../store/index.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** Fills the invented workshop and prints its sign-ins. Returns the exit code. */
async function runDemo(): Promise<number> {
  const read = readSettings(process.env);
  if (!read.ok) {
    console.error(read.message);
    return 1;
  }
  const site = await openSite({
    dataDir: read.settings.dataDir,
    contentDir: resolve(ROOT, 'content'),
    address: read.settings.siteUrl ?? new URL('http://localhost'),
    database: read.settings.database ?? null,
  });
  try {
    const filled = await asSite(() =>
      fillDemoWorkshop(site, process.env['DEMO_PASSWORD'] || undefined),
    );
    if (!filled.ok) {
      console.error(filled.refusal.message);
      return 1;
    }
    console.log('The invented workshop, Alder Lane Joinery, is filled. Sign in as:\n');
    for (const { name, role, email, password } of filled.value) {
      console.log(`${name.padEnd(16)}${role.padEnd(10)}${email.padEnd(36)}${password}`);
    }
    console.log('\nEverything in it is invented. Run this again for new passwords.');
    return 0;
  } finally {
    await site.store.close();
  }
}

try {
  process.exitCode = await runDemo();
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
