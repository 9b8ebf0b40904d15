import type { Instant } from '../dates.ts';
import { fileBy } from './file-by.ts';
import { countsFrom, timeOf } from './instants.ts';
import type { LogEvent } from './log-event.ts';
import { type Log, readLog } from './read-log.ts';

const joined = fileBy('person.joined', ({ about }) => about ?? '');
const changed = fileBy('person.role-changed', ({ about }) => about ?? '');

/** The role a person held at an instant in milliseconds since 1970, or null when the log does not say. */
export function roleHeld(log: Log, person: string, at: number): string | null {
  const given = [...joined(log, person), ...changed(log, person)]
    .filter((event) => countsFrom(event) <= at)
    .sort((a, b) => countsFrom(a) - countsFrom(b));
  return given.at(-1)?.body.role ?? null;
}

/** The role a person held at an instant, or null when the log does not say. */
export const roleAt = (events: readonly LogEvent[], person: string, at: Instant): string | null =>
  roleHeld(readLog(events), person, timeOf(at));

/** Whether a person could act in one of these roles then; a log that does not say is believed. */
export function heldRole(
  log: Log,
  who: { readonly person: string; readonly at: number },
  roles: readonly string[],
): boolean {
  const role = roleHeld(log, who.person, who.at);
  return role === null || roles.includes(role);
}
