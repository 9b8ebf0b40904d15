import type { z } from 'zod';
import type { DraftEnvelope } from './envelope.ts';
import {
  appealSettled,
  attemptStarted,
  attemptSubmitted,
  authorisationEnded,
  authorisationGiven,
  authorisationRefreshed,
  authorisationSeconded,
  authorisationSuspended,
  benchChecked,
  benchRegistered,
  benchReturned,
  benchTakenOut,
  deviceKeyEnded,
  deviceKeyEnrolled,
  earlierStated,
  earlierWithdrawn,
  invitationMade,
  invitationUsed,
  nearMissReported,
  organisationCreated,
  organisationRulesSet,
  organisationSecondStepSet,
  passMarkAdopted,
  passMarkRated,
  personErased,
  personJoined,
  personRoleChanged,
  practicalAnswered,
  practicalCosigned,
  practicalSigned,
  practicalWithdrawn,
  practiceConfirmed,
  practiceNoted,
  resetLinkMade,
  resetLinkPrinted,
  resetLinkUsed,
  shareEnded,
  shareMade,
  shareOpened,
  signInChanged,
  sittingHandedIn,
  sittingReleased,
  sittingSet,
  sittingStarted,
} from './kinds/index.ts';

/** Every kind of event there is. A kind is never taken out: old logs hold it for ever. */
export const EVENT_KINDS = {
  'appeal.settled': appealSettled,
  'attempt.started': attemptStarted,
  'attempt.submitted': attemptSubmitted,
  'authorisation.ended': authorisationEnded,
  'authorisation.given': authorisationGiven,
  'authorisation.refreshed': authorisationRefreshed,
  'authorisation.seconded': authorisationSeconded,
  'authorisation.suspended': authorisationSuspended,
  'bench.checked': benchChecked,
  'bench.registered': benchRegistered,
  'bench.returned': benchReturned,
  'bench.taken-out': benchTakenOut,
  'device-key.ended': deviceKeyEnded,
  'device-key.enrolled': deviceKeyEnrolled,
  'earlier.stated': earlierStated,
  'earlier.withdrawn': earlierWithdrawn,
  'invitation.made': invitationMade,
  'invitation.used': invitationUsed,
  'near-miss.reported': nearMissReported,
  'organisation.created': organisationCreated,
  'organisation.rules-set': organisationRulesSet,
  'organisation.second-step-set': organisationSecondStepSet,
  'pass-mark.adopted': passMarkAdopted,
  'pass-mark.rated': passMarkRated,
  'person.erased': personErased,
  'person.joined': personJoined,
  'person.role-changed': personRoleChanged,
  'practical.answered': practicalAnswered,
  'practical.cosigned': practicalCosigned,
  'practical.signed': practicalSigned,
  'practical.withdrawn': practicalWithdrawn,
  'practice.confirmed': practiceConfirmed,
  'practice.noted': practiceNoted,
  'reset-link.made': resetLinkMade,
  'reset-link.printed': resetLinkPrinted,
  'reset-link.used': resetLinkUsed,
  'sign-in.changed': signInChanged,
  'share.ended': shareEnded,
  'share.made': shareMade,
  'share.opened': shareOpened,
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
