import type { Day, Instant } from '../dates.ts';

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

/** Any event of the log. Its kind says which of the shapes below it has, as checked on every read. */
export type LogEvent = Base & { readonly body: object };

/** What of a signed statement decides a status. */
export type SignedStatement = {
  readonly who: { readonly person: string };
  readonly trainer: { readonly person: string };
  readonly unit: { readonly id: string; readonly version: string };
  readonly bench: { readonly id: string };
  readonly work: string;
  /** the practical of which this is one unit; the first form of a statement names none */
  readonly practical?: string | undefined;
  /** what was watched for; a criterion whose id begins with `stop/` stopped the work */
  readonly criteria?: readonly { readonly id: string }[] | undefined;
  readonly observedAt: Day;
  /** first and last day of a sign-off; null on a "not yet" */
  readonly validFrom: Day | null;
  readonly validUntil: Day | null;
  readonly decision: 'signed-off' | 'not-yet';
};

/** What of an authorisation decides whether it holds. */
export type GivenStatement = {
  readonly id: string;
  readonly who: { readonly person: string };
  readonly by: { readonly person: string; readonly role: string };
  readonly bench: { readonly id: string; readonly asset: string };
  readonly work: readonly string[];
  readonly from: Day;
  readonly until: Day;
  readonly supervised: 'always' | 'as-usual';
  readonly largest: { readonly thickness: number | null; readonly length: number | null };
  readonly conditions: readonly string[];
  readonly age: {
    readonly rule: string;
    readonly answer: 'old-enough' | 'young-under-supervision';
  };
  /** the sign-offs it rests on */
  readonly basis: readonly string[];
};

/** What of a machine's file tells whether it is still the same machine to work at. */
export type MachineFile = {
  readonly guard?: { readonly kind: string } | null | undefined;
  readonly arbor: { readonly largestBlade: number; readonly runDown: number };
};

type Answer = 'agrees' | 'disagrees';

/** The kind of reason that somebody lays an authorisation to rest for. */
export type SuspendCause = 'near-miss' | 'machine-change' | 'guard-change' | 'long-break' | 'other';

/** The fields read here, by kind of event. */
export type Bodies = {
  'person.joined': { readonly role: string };
  'person.role-changed': { readonly role: string };
  'organisation.rules-set': {
    readonly months: number;
    readonly breakMonths: number;
    readonly noticeDays: number;
    readonly second: 'nothing' | 'authorisation' | 'practical-and-authorisation';
  };
  'bench.registered': {
    readonly bench: string;
    readonly file: MachineFile;
    readonly change: 'entry' | 'guard' | 'machine';
  };
  'bench.checked': {
    readonly bench: string;
    readonly verdict: 'fit' | 'not-fit';
    readonly checks: readonly {
      readonly id: string;
      readonly result: string;
      readonly note: string | null;
    }[];
  };
  'bench.taken-out': { readonly bench: string; readonly reason: string };
  'bench.returned': { readonly bench: string; readonly done: string };
  'near-miss.reported': {
    readonly bench: string;
    readonly happenedAt: Instant;
    readonly people: readonly string[];
  };
  'practical.signed': { readonly signoff: string; readonly statement: SignedStatement };
  'practical.withdrawn': { readonly signoff: string; readonly reason: string };
  'practical.cosigned': {
    readonly statement: {
      readonly signoff: string;
      readonly answer: Answer;
      readonly trainer: { readonly person: string };
    };
  };
  'practical.answered': {
    readonly signoff: string;
    readonly answer: Answer | 'appeals';
    readonly words: string | null;
  };
  'appeal.settled': { readonly appeal: string; readonly outcome: 'stands' | 'watch-again' };
  'practice.noted': {
    readonly session: string;
    readonly bench: string;
    readonly work: string;
    readonly supervisor: string;
    readonly startedAt: Instant;
    readonly endedAt: Instant;
    readonly done: string;
  };
  'practice.confirmed': {
    readonly session: string;
    readonly answer: 'yes' | 'no';
    readonly note: string | null;
  };
  'authorisation.given': { readonly statement: GivenStatement };
  'authorisation.seconded': { readonly authorisation: string; readonly answer: Answer };
  'authorisation.suspended': {
    readonly authorisation: string;
    readonly cause: SuspendCause;
    readonly reason: string;
  };
  'authorisation.refreshed': {
    readonly authorisation: string;
    readonly how: 'practical' | 'talked-through';
    readonly signoff: string | null;
  };
  'authorisation.ended': { readonly authorisation: string; readonly reason: string };
};

export type Kind = keyof Bodies;
export type EventOf<K extends Kind> = Base & { readonly kind: K; readonly body: Bodies[K] };

export type PracticalSigned = EventOf<'practical.signed'>;
export type PracticalWithdrawn = EventOf<'practical.withdrawn'>;

export const isSigned = (event: LogEvent): event is PracticalSigned =>
  event.kind === 'practical.signed';
export const isWithdrawn = (event: LogEvent): event is PracticalWithdrawn =>
  event.kind === 'practical.withdrawn';
