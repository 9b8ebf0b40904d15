import { createInterface } from 'node:readline';
import { type EventDraft, newId } from '../../../src/records/index.ts';
import { openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import { GO, type Order, REST } from './order.ts';

/**
 * A process of its own that writes round after round until it is killed. It is told what to do by a line of JSON
 * and begins at the next line; it says on its standard output what it offers before it writes and what the store has
 * acknowledged after. Writes to a pipe are synchronous here, so a line that was printed is never lost with the process.
 */
const say = (line: string): void => void process.stdout.write(`${line}\n`);

/** Two events that belong together: both or none. */
const drawPair = (): EventDraft[] => [draftInvitation(), draftInvitation()];

let clockOffset = 0;
let isResting = false;
let store: Store | undefined;

async function keep(open: Store, drafts: readonly EventDraft[]): Promise<void> {
  await open.write(async ({ append }) => {
    for (const draft of drafts) await append(draft);
  });
  say(`kept ${drafts.map(({ id }) => id).join(' ')}`);
}

async function open({ place, keyFile }: Order): Promise<Store> {
  const clock = () => new Date(Date.now() + clockOffset);
  store ??= await openStore(place, await openSiteKey(keyFile, false), clock);
  return store;
}

async function work(open: Store, { given, hands }: Order): Promise<void> {
  for (const drafts of given) await keep(open, drafts);
  say('writing');
  const hand = async (): Promise<void> => {
    while (!isResting) {
      const drafts = Math.random() < 0.3 ? drawPair() : [draftInvitation({ id: newId() })];
      say(`offer ${JSON.stringify(drafts)}`);
      await keep(open, drafts);
    }
  };
  await Promise.all(Array.from({ length: hands }, hand));
  say('resting');
}

function fail(error: unknown): never {
  say(`failed ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`);
  process.exit(3);
}

let order: Order | undefined;
say('loaded');
createInterface({ input: process.stdin })
  .on('line', (line) => {
    if (line === REST) isResting = true;
    else if (line === GO && store !== undefined && order !== undefined) {
      work(store, order).catch(fail);
    } else {
      order = JSON.parse(line) as Order;
      clockOffset = order.clockOffset;
      isResting = false;
      open(order).then(() => say('open'), fail);
    }
  })
  // whoever gives the orders has ended
  .on('close', () => process.exit());
