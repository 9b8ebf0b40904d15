import type { Site } from '../../../accounts/index.ts';
import { makeStatements, toJsonLine, XAPI_KINDS } from '../../../records/index.ts';

const EVENTS_AT_A_TIME = 1_000;

/**
 * The statements of an organisation as lines, some hundreds at a time, in the order of the log. An event
 * that was changed after it was entered makes none.
 *
 * @param until leaves out what counts from later; null: everything
 */
export async function* statementsOf(
  asked: { readonly org: string; readonly address: string; readonly until: string | null },
  { store }: Site,
): AsyncGenerator<string> {
  const make = makeStatements(asked.address);
  for (let after = -1; ; ) {
    const some = await store.events({
      org: asked.org,
      kinds: XAPI_KINDS,
      after,
      limit: EVENTS_AT_A_TIME,
    });
    let lines = '';
    for (const { event, broken } of some) {
      if (event === null || broken !== null) continue;
      // an event counts from the earlier of its two clocks
      const isLater =
        asked.until !== null && event.at > asked.until && event.received > asked.until;
      if (isLater) continue;
      const statement = make(event);
      if (statement !== null) lines += toJsonLine(statement);
    }
    if (lines !== '') yield lines;
    if (some.length < EVENTS_AT_A_TIME) return;
    after = some.at(-1)?.seq ?? after;
  }
}
