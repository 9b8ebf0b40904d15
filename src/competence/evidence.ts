import type { Day, Instant } from './dates.ts';

/**
 * What the status of a person is worked out from: events as they stand in the log. Only the fields
 * read here are named; the full shapes belong to the records.
 */
type Base = {
  readonly id: string;
  readonly kind: string;
  /** when it happened, by the clock of the device */
  readonly at: Instant;
  /** when the site received it */
  readonly received: Instant;
  readonly by: string;
  readonly about: string | null;
  /** its bytes no longer fit the hash they were entered with: shown, and never counted for anybody */
  readonly altered?: boolean;
};

/** What of a signed statement decides a status. */
export type SignedStatement = {
  readonly who: { readonly person: string };
  readonly trainer: { readonly person: string };
  readonly unit: { readonly id: string; readonly version: string };
  readonly bench: { readonly id: string };
  readonly work: string;
  readonly observedAt: Day;
  /** first and last day of a sign-off; null on a "not yet" */
  readonly validFrom: Day | null;
  readonly validUntil: Day | null;
  readonly decision: 'signed-off' | 'not-yet';
};

export type PracticalSigned = Base & {
  readonly kind: 'practical.signed';
  readonly body: { readonly signoff: string; readonly statement: SignedStatement };
};

export type PracticalWithdrawn = Base & {
  readonly kind: 'practical.withdrawn';
  readonly body: { readonly signoff: string; readonly reason: string };
};

export type RoleGiven = Base & {
  readonly kind: 'person.joined' | 'person.role-changed';
  readonly body: { readonly role: string };
};

/** Any event of the log. Its kind says which of the shapes above it has, as checked on every read. */
export type LogEvent = Base & { readonly body: object };

export const isSigned = (event: LogEvent): event is PracticalSigned =>
  event.kind === 'practical.signed';
export const isWithdrawn = (event: LogEvent): event is PracticalWithdrawn =>
  event.kind === 'practical.withdrawn';
const isRole = (event: LogEvent): event is RoleGiven =>
  event.kind === 'person.joined' || event.kind === 'person.role-changed';

/** The role a person held at an instant, or null when the log does not say. */
export function roleAt(events: readonly LogEvent[], person: string, at: Instant): string | null {
  const given = events
    .filter((event) => isRole(event))
    .filter((event) => event.about === person && Date.parse(event.at) <= Date.parse(at))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  return given.at(-1)?.body.role ?? null;
}
