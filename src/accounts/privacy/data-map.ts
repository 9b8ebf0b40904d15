import type { EventKindName } from '../../records/index.ts';
import type { Tables } from '../../store/index.ts';
import type { PeriodId } from './periods.ts';

/**
 * The one list of all that is kept. The page /privacy is made of it, exports follow it, and a test holds it
 * against the tables of a store and the register of events: what is new and not in here is told at once.
 */

/** Tables that come with the libraries and hold nothing of ours. */
type LibraryTable = 'verification' | 'kysely_migration' | 'kysely_migration_lock';
export type TableName = keyof Tables | LibraryTable;
type ColumnOf<Name extends TableName> = Name extends keyof Tables
  ? keyof Tables[Name] & string
  : string;

/**
 * Whose a row is: of the person in that column, of the organisation, of a group of it, or of nobody.
 */
export type RowOwner<Column extends string = string> =
  | { readonly person: Column }
  | { readonly org: Column }
  | { readonly group: Column }
  | 'nobody';

type TableInMap<Name extends TableName> = {
  readonly set: SetId;
  readonly of: RowOwner<ColumnOf<Name>>;
  /** the column that says which person a row of an organisation or of a group is about */
  readonly about?: ColumnOf<Name>;
  readonly columns: readonly ColumnOf<Name>[];
  /** columns that would open something: in no export */
  readonly secret?: readonly ColumnOf<Name>[];
};

/** Who may see it: `device` is the site itself and no person. */
export type SeenBy =
  | 'device'
  | 'self'
  | 'self-trainers'
  | 'self-trainers-employers'
  | 'trainers'
  | 'trainers-employers'
  | 'organisation';
/** What becomes of it when a person is erased. */
export type AfterErasure = 'goes' | 'goes-soon' | 'stays-nobody' | 'stays';

export type DataSet = {
  readonly where: 'log' | 'table' | 'log-and-table';
  readonly seenBy: SeenBy;
  readonly kept: PeriodId;
  readonly erased: AfterErasure;
};

const set = (
  where: DataSet['where'],
  seenBy: SeenBy,
  kept: PeriodId,
  erased: AfterErasure,
): DataSet => ({ where, seenBy, kept, erased });

/** Kinds of data, each a row of the page. What it is and why it is kept stands in the sheet `privacy`. */
export const DATA_SETS = {
  account: set('table', 'self-trainers-employers', 'account', 'goes'),
  joined: set('log', 'self-trainers-employers', 'log', 'stays-nobody'),
  session: set('table', 'self', 'session', 'goes'),
  'sign-in': set('table', 'device', 'sign-in', 'goes'),
  factors: set('log-and-table', 'self', 'with-account', 'goes'),
  invitation: set('log-and-table', 'trainers', 'invitation', 'goes'),
  group: set('table', 'trainers', 'with-account', 'goes'),
  learning: set('table', 'self', 'with-account', 'goes'),
  attempt: set('log', 'self-trainers', 'log', 'stays-nobody'),
  sitting: set('log', 'self-trainers', 'log', 'stays-nobody'),
  'open-sitting': set('table', 'self', 'open-sitting', 'goes'),
  'pass-mark': set('log', 'trainers', 'log', 'stays-nobody'),
  practical: set('log', 'self-trainers-employers', 'log', 'stays-nobody'),
  photo: set('table', 'self-trainers-employers', 'photo', 'goes'),
  practice: set('log', 'self-trainers-employers', 'log', 'stays-nobody'),
  authorisation: set('log', 'self-trainers-employers', 'log', 'stays-nobody'),
  earlier: set('log-and-table', 'self-trainers-employers', 'with-account', 'goes'),
  machine: set('log', 'organisation', 'log', 'stays-nobody'),
  'near-miss': set('log', 'organisation', 'log', 'stays-nobody'),
  device: set('log', 'trainers-employers', 'log', 'stays-nobody'),
  calendar: set('table', 'self', 'calendar', 'goes'),
  share: set('log-and-table', 'trainers-employers', 'organisation', 'stays-nobody'),
  wish: set('table', 'self-trainers-employers', 'with-account', 'goes'),
  organisation: set('log-and-table', 'organisation', 'organisation', 'stays'),
  log: set('log', 'device', 'log', 'stays-nobody'),
  housekeeping: set('table', 'device', 'organisation', 'stays'),
} as const satisfies Readonly<Record<string, DataSet>>;
export type SetId = keyof typeof DATA_SETS;
export const SET_IDS = Object.keys(DATA_SETS) as SetId[];

/** Every table and every column of it. */
export const TABLES_KEPT: { readonly [Name in TableName]: TableInMap<Name> } = {
  user: {
    set: 'account',
    of: { person: 'id' },
    columns: ['id', 'name', 'email', 'emailVerified', 'image', 'createdAt', 'updatedAt'],
  },
  account: {
    set: 'account',
    of: { person: 'userId' },
    columns: [
      ...(['id', 'accountId', 'providerId', 'userId', 'accessToken', 'refreshToken'] as const),
      ...(['idToken', 'accessTokenExpiresAt', 'refreshTokenExpiresAt', 'scope'] as const),
      ...(['password', 'createdAt', 'updatedAt'] as const),
    ],
    secret: ['accessToken', 'refreshToken', 'idToken', 'password'],
  },
  membership: {
    set: 'account',
    of: { person: 'person' },
    columns: ['person', 'org', 'role', 'salt', 'joinedAt'],
  },
  session: {
    set: 'session',
    of: { person: 'userId' },
    columns: [
      ...(['id', 'expiresAt', 'token', 'createdAt', 'updatedAt'] as const),
      ...(['ipAddress', 'userAgent', 'userId'] as const),
      ...(['seenAt', 'freshAt', 'role', 'level', 'device'] as const),
    ],
    secret: ['token'],
  },
  sign_in_step: {
    set: 'sign-in',
    of: { person: 'person' },
    columns: ['tokenHash', 'person', 'expiresAt'],
    secret: ['tokenHash'],
  },
  passkey_challenge: {
    set: 'sign-in',
    of: 'nobody',
    columns: ['challengeHash', 'purpose', 'person', 'about', 'expiresAt'],
    secret: ['challengeHash'],
  },
  passkey: {
    set: 'factors',
    of: { person: 'person' },
    columns: [
      ...(['id', 'credential', 'person', 'publicKey', 'counter', 'transports'] as const),
      ...(['name', 'madeAt', 'usedAt'] as const),
    ],
  },
  code_maker: {
    set: 'factors',
    of: { person: 'person' },
    columns: ['person', 'sealedSecret', 'lastStep', 'madeAt', 'confirmedAt'],
    secret: ['sealedSecret'],
  },
  recovery_code: {
    set: 'factors',
    of: { person: 'person' },
    columns: ['codeHash', 'person', 'madeAt', 'usedAt'],
    secret: ['codeHash'],
  },
  reset_link: {
    set: 'factors',
    of: { org: 'org' },
    about: 'person',
    columns: [
      ...(['id', 'tokenHash', 'org', 'person', 'clears', 'madeBy', 'madeAt'] as const),
      ...(['expiresAt', 'endedAt', 'usedAt', 'toldAt'] as const),
    ],
    secret: ['tokenHash'],
  },
  sign_in_ticket: {
    set: 'sign-in',
    of: { person: 'person' },
    columns: ['ticketHash', 'person', 'statementHash', 'expiresAt', 'usedAt'],
    secret: ['ticketHash'],
  },
  sign_in_try: {
    set: 'sign-in',
    of: 'nobody',
    columns: ['key', 'failures', 'lastAt', 'blockedUntil'],
  },
  verification: {
    set: 'sign-in',
    of: 'nobody',
    columns: ['id', 'identifier', 'value', 'expiresAt', 'createdAt', 'updatedAt'],
  },
  organisation: {
    set: 'organisation',
    of: { org: 'id' },
    columns: ['id', 'name', 'salt', 'invented', 'madeAt'],
  },
  retention_choice: {
    set: 'organisation',
    of: { org: 'org' },
    columns: ['org', 'kind', 'months', 'setBy', 'setAt'],
  },
  invitation: {
    set: 'invitation',
    of: { org: 'org' },
    about: 'usedBy',
    columns: [
      ...(['id', 'tokenHash', 'org', 'role', 'name', 'invitedBy', 'madeAt'] as const),
      ...(['expiresAt', 'usedAt', 'usedBy', 'group'] as const),
    ],
    secret: ['tokenHash'],
  },
  person_group: {
    set: 'group',
    of: { org: 'org' },
    columns: ['id', 'org', 'name', 'madeAt'],
  },
  person_group_member: {
    set: 'group',
    of: { group: 'group' },
    about: 'person',
    columns: ['group', 'person'],
  },
  learning_answer: {
    set: 'learning',
    of: { person: 'person' },
    columns: ['person', 'id', 'lesson', 'question', 'right', 'at', 'received'],
  },
  open_sitting: {
    set: 'open-sitting',
    of: { org: 'org' },
    about: 'person',
    columns: [
      ...(['attempt', 'org', 'person', 'blueprint', 'handInEvent', 'feedback', 'work'] as const),
      ...(['revision', 'hold', 'contactAt', 'used', 'away', 'allowed', 'extensions'] as const),
      'startedAt',
    ],
  },
  photo: {
    set: 'photo',
    of: { org: 'org' },
    about: 'about',
    columns: ['digest', 'org', 'signoff', 'about', 'type', 'bytes', 'received'],
  },
  earlier_training: {
    set: 'earlier',
    of: { org: 'org' },
    about: 'person',
    columns: ['event', 'org', 'person', 'training', 'givenBy', 'paper', 'salt'],
  },
  calendar_address: {
    set: 'calendar',
    of: { org: 'org' },
    about: 'person',
    columns: ['tokenHash', 'org', 'person', 'madeAt', 'language', 'names'],
    secret: ['tokenHash'],
  },
  share_link: {
    set: 'share',
    of: { org: 'org' },
    columns: [
      ...(['id', 'tokenHash', 'org', 'madeBy', 'madeAt', 'endsAt', 'endedAt'] as const),
      ...(['people', 'bench', 'purpose', 'openings', 'unlogged', 'loggedAt', 'openedAt'] as const),
    ],
    secret: ['tokenHash'],
  },
  erasure_wish: {
    set: 'wish',
    of: { org: 'org' },
    about: 'person',
    columns: ['person', 'org', 'askedAt'],
  },
  event: {
    set: 'log',
    of: { org: 'org' },
    columns: ['seq', 'id', 'org', 'kind', 'by', 'about', 'json'],
  },
  tree_node: { set: 'log', of: 'nobody', columns: ['level', 'position', 'hash'] },
  log_head: { set: 'log', of: 'nobody', columns: ['log', 'size', 'root', 'note'] },
  kysely_migration: { set: 'housekeeping', of: 'nobody', columns: ['name', 'timestamp'] },
  kysely_migration_lock: { set: 'housekeeping', of: 'nobody', columns: ['id', 'is_locked'] },
};
export const TABLE_NAMES = Object.keys(TABLES_KEPT) as TableName[];

/** Every kind of event. */
export const KINDS_KEPT: Readonly<Record<EventKindName, SetId>> = {
  'appeal.settled': 'practical',
  'attempt.started': 'attempt',
  'attempt.submitted': 'attempt',
  'authorisation.ended': 'authorisation',
  'authorisation.given': 'authorisation',
  'authorisation.refreshed': 'authorisation',
  'authorisation.seconded': 'authorisation',
  'authorisation.suspended': 'authorisation',
  'bench.checked': 'machine',
  'bench.registered': 'machine',
  'bench.returned': 'machine',
  'bench.taken-out': 'machine',
  'device-key.ended': 'device',
  'device-key.enrolled': 'device',
  'earlier.stated': 'earlier',
  'earlier.withdrawn': 'earlier',
  'invitation.made': 'invitation',
  'invitation.used': 'invitation',
  'near-miss.reported': 'near-miss',
  'organisation.created': 'organisation',
  'organisation.rules-set': 'organisation',
  'organisation.second-step-set': 'organisation',
  'pass-mark.adopted': 'pass-mark',
  'pass-mark.rated': 'pass-mark',
  'person.erased': 'joined',
  'person.joined': 'joined',
  'person.role-changed': 'joined',
  'practical.answered': 'practical',
  'practical.cosigned': 'practical',
  'practical.signed': 'practical',
  'practical.withdrawn': 'practical',
  'practice.confirmed': 'practice',
  'practice.noted': 'practice',
  'reset-link.made': 'factors',
  'reset-link.printed': 'factors',
  'reset-link.used': 'factors',
  'share.ended': 'share',
  'share.made': 'share',
  'share.opened': 'share',
  'sign-in.changed': 'factors',
  'sitting.handed-in': 'sitting',
  'sitting.released': 'sitting',
  'sitting.set': 'sitting',
  'sitting.started': 'sitting',
};
