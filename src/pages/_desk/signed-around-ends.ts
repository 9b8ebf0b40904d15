import type { Site } from '../../accounts/index.ts';
import { STOP_PREFIX } from '../../competence/sheet/index.ts';
import type { StoredEvent } from '../../store/index.ts';

/** As a stop says it in the text of the log, which is canonical: no blanks, one spelling. */
const STOPPED = `"id":"${STOP_PREFIX}`;

/**
 * Withdrawals, and the signed practicals of everybody who had one stopped or withdrawn: nobody else's sign-offs
 * are gone, and those of a large shop are too many to read for one status list.
 */
export async function signedAroundEnds(
  org: string,
  { store }: Site,
): Promise<{
  readonly signed: readonly StoredEvent<'practical.signed'>[];
  readonly withdrawals: readonly StoredEvent<'practical.withdrawn'>[];
}> {
  const stops = await store.events({ org, kinds: ['practical.signed'], containing: STOPPED });
  const withdrawals = await store.events({ org, kinds: ['practical.withdrawn'] });
  const abouts = [...stops, ...withdrawals].flatMap(({ event }) => event?.about ?? []);
  const signed = await store.events({ org, kinds: ['practical.signed'], abouts });
  return { signed, withdrawals };
}
