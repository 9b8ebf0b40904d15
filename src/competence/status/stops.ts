import { fileBy } from '../log/file-by.ts';
import { countsFrom } from '../log/instants.ts';
import type { PracticalSigned } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { STOP_PREFIX } from '../sheet/write-statement.ts';

/** Whether this record says that an error stopped the work. */
export const saysStop = ({ body }: PracticalSigned): boolean =>
  body.statement.criteria?.some(({ id }) => id.startsWith(STOP_PREFIX)) ?? false;

const byPractical = fileBy('practical.signed', ({ body: { statement } }) =>
  JSON.stringify([statement.who.person, statement.practical ?? null]),
);
const withdrawalsOf = fileBy('practical.withdrawn', ({ body }) => body.signoff);

/**
 * The record that stopped the practical of which this one is a unit, in whatever order the two reached
 * the site; null when nothing did. A stop that was taken back is none; an altered one still forbids.
 * @param now ms: only what counts by then
 */
export function stopOf(log: Log, event: PracticalSigned, now: number): PracticalSigned | null {
  const { practical, who } = event.body.statement;
  if (practical === undefined) return null;
  const all = byPractical(log, JSON.stringify([who.person, practical]));
  const stop = all.find(
    (one) =>
      one.id !== event.id &&
      // one trainer watches a practical: a stranger's record under its id ends nothing
      one.by === event.by &&
      saysStop(one) &&
      countsFrom(one) <= now &&
      !withdrawalsOf(log, one.body.signoff).some((taken) => countsFrom(taken) <= now),
  );
  return stop ?? null;
}
