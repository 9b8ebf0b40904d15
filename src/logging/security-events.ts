import { log } from './log.ts';
import { ofProcess } from './of-process.ts';
import { runningRequest } from './running-request.ts';

/**
 * What is told about security, each a line of its own beside the line of its request, which has the same number.
 * Refused input shows in the status of the request alone: 400, 405, 409, 413, 415, 422.
 */
export const SECURITY_KINDS = {
  'signed-in': 'Somebody signed in; `factor` says by what.',
  'second-step-asked': 'A password was right, and a second step is asked for.',
  'sign-in-refused': 'An e-mail and a password that do not belong together.',
  'second-step-refused': 'A wrong one-time or recovery code.',
  'passkey-refused': 'What a passkey answered does not hold.',
  'locked-out': 'Tried again within the wait that wrong tries bring; nothing was checked.',
  'proved-again':
    'Somebody signed in proved again who they are, to sign or to change how they sign in.',
  'proof-refused': 'They did not: a wrong password.',
  'ticket-refused': 'A signature without a fresh sign-in for just that statement.',
  'key-refused':
    'A record signed by a key that is unknown or has ended, or whose signature does not hold.',
  'signed-out': 'Somebody signed out.',
  'sessions-ended': 'Other sessions of a person were ended, such as everywhere but here.',
  'not-permitted':
    'Somebody signed in was refused by role or ownership: 403, or 404 for what is not theirs.',
  'link-refused': 'A link with a secret that is unknown, used, ended or over.',
  'from-elsewhere': 'A request to change something that no page of this site sent.',
  'another-host': 'A request for a host that is not ours.',
  'token-refused': 'The metrics were asked for without their token.',
  'not-http': 'Bytes that are no whole request, or came too slowly.',
  recorded: 'Entered in the log of records: `record` says what, `count` how often in one write.',
} as const;
export type SecurityKind = keyof typeof SECURITY_KINDS;

export const FACTORS = [
  'password',
  'passkey',
  'password-and-code',
  'password-and-recovery-code',
] as const;
export type Factor = (typeof FACTORS)[number];

/** Kinds of records that bear on who may come in, sign or look. */
export const SECURITY_RECORDS = [
  'device-key.ended',
  'device-key.enrolled',
  'invitation.made',
  'invitation.used',
  'organisation.created',
  'organisation.rules-set',
  'organisation.second-step-set',
  'person.erased',
  'person.joined',
  'person.role-changed',
  'reset-link.made',
  'reset-link.printed',
  'reset-link.used',
  'share.ended',
  'share.made',
  'share.opened',
  'sign-in.changed',
] as const;
export type SecurityRecord = (typeof SECURITY_RECORDS)[number];

const counts = ofProcess(
  'security-counts',
  () => new Map(Object.keys(SECURITY_KINDS).map((kind) => [kind as SecurityKind, 0])),
);

/** How often each happened since the process began. */
export const securityCounts = (): ReadonlyMap<SecurityKind, number> => counts;

/** Tells and counts that it happened, with the request it happened in. Never who, about whom or from where. */
export function logSecurity(
  kind: SecurityKind,
  about: {
    readonly factor?: Factor;
    readonly record?: SecurityRecord;
    readonly count?: number;
  } = {},
): void {
  counts.set(kind, (counts.get(kind) ?? 0) + (about.count ?? 1));
  const running = runningRequest();
  log('info', 'security', {
    kind,
    ...about,
    ...(running === null ? {} : { request: running.id, route: running.route ?? '(none)' }),
  });
}

/** Tells of those records just entered that bear on security, each kind once with its count. */
export function logRecorded(kinds: readonly string[]): void {
  for (const record of SECURITY_RECORDS) {
    const count = kinds.filter((kind) => kind === record).length;
    if (count > 0) logSecurity('recorded', { record, count });
  }
}
