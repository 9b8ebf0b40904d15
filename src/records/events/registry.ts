import type { z } from 'zod';
import type { DraftEnvelope } from './envelope.ts';
import {
  attemptStarted,
  attemptSubmitted,
  benchRegistered,
  deviceKeyEnded,
  deviceKeyEnrolled,
  invitationMade,
  invitationUsed,
  organisationCreated,
  passMarkAdopted,
  passMarkRated,
  personJoined,
  personRoleChanged,
  practicalSigned,
  practicalWithdrawn,
  sittingHandedIn,
  sittingReleased,
  sittingSet,
  sittingStarted,
} from './kinds/index.ts';

/** Every kind of event there is. A kind is never taken out: old logs hold it for ever. */
export const EVENT_KINDS = {
  'attempt.started': attemptStarted,
  'attempt.submitted': attemptSubmitted,
  'bench.registered': benchRegistered,
  'device-key.ended': deviceKeyEnded,
  'device-key.enrolled': deviceKeyEnrolled,
  'invitation.made': invitationMade,
  'invitation.used': invitationUsed,
  'organisation.created': organisationCreated,
  'pass-mark.adopted': passMarkAdopted,
  'pass-mark.rated': passMarkRated,
  'person.joined': personJoined,
  'person.role-changed': personRoleChanged,
  'practical.signed': practicalSigned,
  'practical.withdrawn': practicalWithdrawn,
  'sitting.handed-in': sittingHandedIn,
  'sitting.released': sittingReleased,
  'sitting.set': sittingSet,
  'sitting.started': sittingStarted,
} as const;

export type EventKindName = keyof typeof EVENT_KINDS;
export type BodyOf<Kind extends EventKindName> = z.output<(typeof EVENT_KINDS)[Kind]['body']>;

/** An event on its way to the log, of the kind named. */
export type DraftOf<Kind extends EventKindName> = Omit<DraftEnvelope, 'kind' | 'body'> & {
  readonly kind: Kind;
  readonly body: BodyOf<Kind>;
};
export type EventOf<Kind extends EventKindName> = DraftOf<Kind> & {
  /** by the server's clock */
  readonly received: string;
};

/** Any event on its way to the log. Narrow by `kind`. */
export type EventDraft = { [Kind in EventKindName]: DraftOf<Kind> }[EventKindName];

/** Any event in the log. Narrow by `kind`. */
export type LogEvent = { [Kind in EventKindName]: EventOf<Kind> }[EventKindName];

export const isEventKind = (kind: string): kind is EventKindName =>
  Object.hasOwn(EVENT_KINDS, kind);
