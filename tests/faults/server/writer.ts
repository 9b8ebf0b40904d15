import { createInterface } from 'node:readline';
import { type EventDraft, newId } from '../../../src/records/index.ts';
import { openSiteKey, openStore } from '../../../src/store/index.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import type { Order } from './order.ts';

/**
 * A process of its own that writes until it is killed. It is told what to do by one line of JSON, and says on
 * its standard output what it offers before it writes and what the store has acknowledged after. Writes to a
 * pipe are synchronous here, so a line that was printed is never lost with the process.
 */
const say = (line: string): void => void process.stdout.write(`${line}\n`);

/** Two events that belong together: both or none. */
const drawPair = (): EventDraft[] => [draftInvitation(), draftInvitation()];

async function work({ place, keyFile, again, clockOffset, hands }: Order): Promise<void> {
  const clock = () => new Date(Date.now() + clockOffset);
  const store = await openStore(place, await openSiteKey(keyFile, false), clock);
  say('open');
  // what nobody heard the answer to is sent once more, whatever became of it
  for (const drafts of again) {
    await store.write(async ({ append }) => {
      for (const draft of drafts) await append(draft);
    });
    say(`kept ${drafts.map(({ id }) => id).join(' ')}`);
  }
  say('writing');
  const hand = async (): Promise<never> => {
    for (;;) {
      const drafts = Math.random() < 0.3 ? drawPair() : [draftInvitation({ id: newId() })];
      say(`offer ${JSON.stringify(drafts)}`);
      await store.write(async ({ append }) => {
        for (const draft of drafts) await append(draft);
      });
      say(`kept ${drafts.map(({ id }) => id).join(' ')}`);
    }
  };
  await Promise.all(Array.from({ length: hands }, hand));
}

say('loaded');
createInterface({ input: process.stdin }).once('line', (line) => {
  work(JSON.parse(line) as Order).catch((error: unknown) => {
    say(`failed ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`);
    process.exit(3);
  });
});
