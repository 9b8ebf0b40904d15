import { join } from 'node:path';
import { openSiteKey, openStore } from '../../../src/store/index.ts';
import { draftInvitation } from '../temp-store.ts';

// Appends as many events as it is told to, and prints the id of each once the store has acknowledged it.
const [folder = '.', count = '0'] = process.argv.slice(2);
const file = join(folder, 'store.sqlite');
const store = await openStore({ file }, await openSiteKey(join(folder, 'site-key.json'), file));
for (let i = 0; i < Number(count); i++) {
  const { event } = await store.append(draftInvitation());
  process.stdout.write(`${event.id}\n`);
}
await store.close();
