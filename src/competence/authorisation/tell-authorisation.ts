import type { EventOf } from '../log/log-event.ts';
import type { WorkStatus } from '../status/work-status.ts';
import { clause, forWork, onDay, shortName, type Told, tell } from '../told/told.ts';
import type { RestCause } from './causes.ts';

type NameOf = (person: string) => string;

/** Why it rests. */
export function tellCause(cause: RestCause, nameOf: NameOf): Told {
  const day = onDay(cause.since);
  if (cause.kind !== 'suspended') return tell(`rests.${cause.kind}`, { day });
  const who = shortName(nameOf(cause.by ?? ''));
  const kind = cause.suspendedFor ?? 'other';
  return tell('rests.suspended', { day, who, reason: clause(cause.reason), kind });
}

/** How many units of a kind of work are signed off, while not all are. */
export function tellSignOffs(work: string, { because }: WorkStatus): Told {
  const held = because.filter(({ state }) => state === 'signed-off').length;
  return tell('rests.sign-offs', { work: forWork(work), held, all: because.length });
}

/** Who ended it, when and why. */
export const tellEnd = ({ at, body, by }: EventOf<'authorisation.ended'>, nameOf: NameOf): Told =>
  tell('leave.ended', { who: shortName(nameOf(by)), day: onDay(at), reason: clause(body.reason) });
