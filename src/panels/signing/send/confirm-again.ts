import type { Reply } from '../post-json.ts';
import { confirmOnSite, MOST_AT_ONCE } from '../ready/enrol.ts';
import { renewTickets, unsentOf } from '../store/outbox.ts';
import { type FlushReport, flush } from './flush.ts';

/**
 * One more sign-in for the records of this person whose proof of the first has run out before they came to
 * the site, and sends them.
 */
export async function confirmAgain(given: {
  readonly person: string;
  readonly password: string;
}): Promise<Reply<FlushReport>> {
  const waiting = (await unsentOf(given.person)).filter(
    ({ request, logged }) => logged === null && isConfirmedOnSite(request.event.body),
  );
  for (let from = 0; from < waiting.length; from += MOST_AT_ONCE) {
    const some = waiting.slice(from, from + MOST_AT_ONCE);
    const hashes = some.map(({ statementHash }) => statementHash);
    const reply = await confirmOnSite(given.password, hashes, null);
    if (!reply.ok) return reply;
    const tickets = reply.value.tickets;
    await renewTickets(
      new Map(
        some.flatMap(({ signoff }, index) => {
          const ticket = tickets[index];
          return ticket === undefined ? [] : [[signoff, ticket] as const];
        }),
      ),
    );
  }
  return { ok: true, value: await flush('wait') };
}

function isConfirmedOnSite(body: object): boolean {
  const statement = (body as { readonly statement?: { readonly confirmed?: string } }).statement;
  return statement?.confirmed !== 'device';
}
