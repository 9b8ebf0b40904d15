import { join } from 'node:path';
import { openSiteKey, openStore } from '../../src/store/index.ts';
import { draftInvitation } from './temp-store.ts';

// Writes until it is killed, and prints the id of each event once the store has acknowledged it.
const folder = process.argv[2] ?? '.';
const file = join(folder, 'store.sqlite');
const store = await openStore({ file }, await openSiteKey(join(folder, 'site-key.json'), file));
process.stdout.write('ready\n');
for (;;) {
  const { event } = await store.append(draftInvitation());
  process.stdout.write(`${event.id}\n`);
}
