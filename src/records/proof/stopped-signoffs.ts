import { STOP_PREFIX } from '../../competence/sheet/index.ts';
import type { EventOf, LogEvent } from '../events/index.ts';

/** The practical of a signed record and who watched it; null for the first form, which names none. */
function practicalOf({ body, by }: EventOf<'practical.signed'>): string | null {
  const { statement } = body;
  if (statement.schema === 'statement/1') return null;
  return JSON.stringify([statement.practical, statement.who.person, by]);
}

/** Whether a record says that an error stopped the work. */
export const saysStop = ({ body }: EventOf<'practical.signed'>): boolean =>
  body.statement.criteria.some(({ id }) => id.startsWith(STOP_PREFIX));

/**
 * Sign-offs whose practical was stopped in another unit, whichever reached the log first: a stop ends
 * all units of a practical. A stop that was taken back is none.
 */
export function stoppedSignoffs(events: readonly LogEvent[]): Set<string> {
  const signed = events.filter((one) => one.kind === 'practical.signed');
  const taken = new Set(
    events.flatMap((one) => (one.kind === 'practical.withdrawn' ? [one.body.signoff] : [])),
  );
  const stopped = new Set(
    signed.filter((one) => saysStop(one) && !taken.has(one.id)).map(practicalOf),
  );
  stopped.delete(null);
  const ended = signed.filter((one) => !saysStop(one) && stopped.has(practicalOf(one)));
  return new Set(ended.map(({ id }) => id));
}
