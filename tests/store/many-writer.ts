import { openSiteKey, openStore, type StorePlace } from '../../src/store/index.ts';
import { draftInvitation } from './temp-store.ts';

/** A process of its own that enters events, many at once, and prints the ids that were acknowledged. */
const [order = '{}'] = process.argv.slice(2);
const { place, keyFile, count } = JSON.parse(order) as {
  place: StorePlace;
  keyFile: string;
  count: number;
};
const store = await openStore(place, await openSiteKey(keyFile, true));
const kept: string[] = [];
let left = count;
async function enter(): Promise<void> {
  while (left-- > 0) kept.push((await store.append(draftInvitation())).event.id);
}
await Promise.all(Array.from({ length: 4 }, enter));
await store.close();
process.stdout.write(JSON.stringify(kept));
