/**
 * Every table of this site as Kysely sees it. The log (event, tree_node, log_head) holds opaque ids only;
 * names and e-mails live in the account tables, so that a person can be erased without breaking the log.
 * Instants are ISO 8601 text in UTC; hashes are lower-case hexadecimal SHA-256.
 */
export type Tables = {
  readonly event: EventTable;
  readonly tree_node: TreeNodeTable;
  readonly log_head: LogHeadTable;
  readonly user: UserTable;
  readonly session: SessionTable;
  readonly account: AccountTable;
  readonly organisation: OrganisationTable;
  readonly membership: MembershipTable;
  readonly invitation: InvitationTable;
  readonly sign_in_ticket: SignInTicketTable;
  readonly sign_in_try: SignInTryTable;
  readonly open_sitting: OpenSittingTable;
  readonly learning_answer: LearningAnswerTable;
  readonly photo: PhotoTable;
  readonly person_group: PersonGroupTable;
  readonly person_group_member: PersonGroupMemberTable;
  readonly calendar_address: CalendarAddressTable;
  readonly share_link: ShareLinkTable;
  readonly sign_in_step: SignInStepTable;
  readonly passkey_challenge: PasskeyChallengeTable;
  readonly passkey: PasskeyTable;
  readonly code_maker: CodeMakerTable;
  readonly recovery_code: RecoveryCodeTable;
  readonly reset_link: ResetLinkTable;
  readonly earlier_training: EarlierTrainingTable;
  readonly erasure_wish: ErasureWishTable;
  readonly retention_choice: RetentionChoiceTable;
};

/** One row per event, never changed. `json` is what counts; the other columns only help to find it. */
type EventTable = {
  /** Place in the log, from 0 without a gap: also the leaf's index in the tree. */
  seq: number;
  id: string;
  org: string;
  kind: string;
  by: string;
  about: string | null;
  /** RFC 8785 canonical JSON of the whole event. Its leaf hash stands in tree_node at level 0. */
  json: string;
};

/** Hashes of complete subtrees (RFC 6962): 2^level leaves, beginning at leaf position * 2^level. */
type TreeNodeTable = { level: number; position: number; hash: string };

/** The newest checkpoint: a single row, written together with the event it covers. */
type LogHeadTable = { log: number; size: number; root: string; note: string };

type UserTable = {
  id: string;
  name: string;
  email: string;
  emailVerified: number;
  image: string | null;
  createdAt: string;
  updatedAt: string;
};

/** `token` is the SHA-256 of what the cookie holds, so a copy of the database signs nobody in. */
type SessionTable = {
  id: string;
  expiresAt: string;
  token: string;
  createdAt: string;
  updatedAt: string;
  ipAddress: string | null;
  userAgent: string | null;
  userId: string;
  /** last request, to the minute */
  seenAt: string;
  /** when the person last proved who they are */
  freshAt: string;
  /** the role they signed in with: a session of another role is over */
  role: string;
  /** `enrol`: good only for setting up the second step that the workshop asks for */
  level: 'full' | 'enrol';
  device: 'phone' | 'tablet' | 'computer';
};

type AccountTable = {
  id: string;
  accountId: string;
  providerId: string;
  userId: string;
  accessToken: string | null;
  refreshToken: string | null;
  idToken: string | null;
  accessTokenExpiresAt: string | null;
  refreshTokenExpiresAt: string | null;
  scope: string | null;
  password: string | null;
  createdAt: string;
  updatedAt: string;
};

/** `invented` marks the demonstration workshop, 1 or 0. `salt` keys the hash of the name in the log. */
type OrganisationTable = {
  id: string;
  name: string;
  salt: string;
  invented: number;
  madeAt: string;
};

/** A person belongs to one organisation. `salt` keys the hash of the name that events carry. */
type MembershipTable = {
  person: string;
  org: string;
  role: 'trainee' | 'trainer' | 'employer';
  salt: string;
  joinedAt: string;
};

/** Only the hash of the token is kept, so a copy of the database cannot be used to join. */
type InvitationTable = {
  id: string;
  tokenHash: string;
  org: string;
  role: 'trainee' | 'trainer' | 'employer';
  name: string;
  invitedBy: string;
  madeAt: string;
  expiresAt: string;
  usedAt: string | null;
  usedBy: string | null;
  /** the group they are put into when they join */
  group: string | null;
};

/** Proof that a person signed in again for one statement: used once, within minutes. */
type SignInTicketTable = {
  ticketHash: string;
  person: string;
  statementHash: string;
  expiresAt: string;
  usedAt: string | null;
};

/** Failed sign-ins in a row for one key: the hash of an e-mail or of a network address. */
type SignInTryTable = { key: string; failures: number; lastAt: string; blockedUntil: string };

/**
 * A form being sat, until it is handed in: what was done goes into the log then and the row goes. One
 * row per person. `used` and `away` are ms by the server's clock up to `contactAt`, null while paused.
 */
type OpenSittingTable = {
  attempt: string;
  org: string;
  person: string;
  blueprint: string;
  /** id that the event of handing in will have, so that it is entered once */
  handInEvent: string;
  feedback: 'now' | 'later';
  /** JSON of the answers so far, and how often they were saved */
  work: string;
  revision: number;
  /** the tab or device that holds it now */
  hold: string;
  contactAt: string | null;
  used: number;
  away: number;
  /** ms; null where there is no limit of time */
  allowed: number | null;
  extensions: number;
  startedAt: string;
};

/**
 * Answers given while learning. They are private and prove nothing, so they are not in the log: a person may
 * erase them. A row is never changed. `id` is made by the device, and means something for one person only.
 */
type LearningAnswerTable = {
  person: string;
  id: string;
  lesson: string;
  question: string;
  /** 1 or 0 */
  right: number;
  /** ISO instants in UTC: by the device, never after `received`, and by the server */
  at: string;
  received: string;
};

/**
 * A picture taken at a practical. The log holds its digest alone, inside what the trainer signed; the picture
 * may be erased, never changed. `about` is the person watched.
 */
type PhotoTable = {
  /** SHA-256 of `bytes` */
  digest: string;
  org: string;
  signoff: string;
  about: string;
  type: 'image/jpeg';
  bytes: Uint8Array;
  received: string;
};

/** People a trainer looks after together, such as a class. Names of groups are not in the log. */
type PersonGroupTable = { id: string; org: string; name: string; madeAt: string };
type PersonGroupMemberTable = { group: string; person: string };

/** The secret address of one person's calendar, one to a person; only its hash is kept. */
type CalendarAddressTable = {
  tokenHash: string;
  org: string;
  person: string;
  madeAt: string;
  language: string;
  /** `opaque`: that something is due, and nothing of whom or what */
  names: 'full' | 'opaque';
};

/** A right password whose second step is still to come. Good for nothing else. */
type SignInStepTable = { tokenHash: string; person: string; expiresAt: string };

/** A random text that a passkey has to sign: once, within minutes, for one purpose. */
type PasskeyChallengeTable = {
  challengeHash: string;
  purpose: string;
  /** null where anybody may answer, as at sign-in */
  person: string | null;
  /** what it is for beside the purpose, such as a hash of what is signed */
  about: string;
  expiresAt: string;
};

/** The public half of a passkey. `id` is ours; `credential` is what the browser calls it. */
type PasskeyTable = {
  id: string;
  credential: string;
  person: string;
  /** COSE key, base64url */
  publicKey: string;
  counter: number;
  /** JSON list */
  transports: string;
  name: string;
  madeAt: string;
  usedAt: string | null;
};

/** What makes a person's one-time codes (RFC 6238), sealed with the site key. */
type CodeMakerTable = {
  person: string;
  sealedSecret: string;
  /** time step of the last code taken: that one and earlier ones are refused */
  lastStep: number;
  madeAt: string;
  confirmedAt: string | null;
};

type RecoveryCodeTable = {
  codeHash: string;
  person: string;
  madeAt: string;
  usedAt: string | null;
};

/** A link with which one person sets a new password. `clears`: what else it takes away. */
type ResetLinkTable = {
  id: string;
  tokenHash: string;
  org: string;
  person: string;
  clears: 'password' | 'everything';
  madeBy: string;
  madeAt: string;
  expiresAt: string;
  /** put out of use before it was used, by a newer one */
  endedAt: string | null;
  usedAt: string | null;
  /** when the person was told after signing in that this was done */
  toldAt: string | null;
};

/**
 * The words of training stated on paper. The log holds their salted hash alone, in the event named, so that
 * they can be erased. `salt` keys that hash.
 */
type EarlierTrainingTable = {
  event: string;
  org: string;
  person: string;
  training: string;
  givenBy: string;
  /** number or place of the paper; may be empty */
  paper: string;
  salt: string;
};

/** Somebody has asked for what is kept about them to be erased. */
type ErasureWishTable = { person: string; org: string; askedAt: string };

/** A period an organisation chose for itself, in months; without a row the usual one holds. */
type RetentionChoiceTable = {
  org: string;
  kind: 'photo' | 'account';
  months: number;
  setBy: string;
  setAt: string;
};

/** A link for an inspector to look with, until it ends. Its purpose is here and not in the log: it may name somebody. */
type ShareLinkTable = {
  id: string;
  tokenHash: string;
  org: string;
  madeBy: string;
  madeAt: string;
  endsAt: string;
  /** when somebody ended it before its time */
  endedAt: string | null;
  /** JSON list of opaque ids; an empty one is everybody */
  people: string;
  /** id of a bench; null for all of them */
  bench: string | null;
  purpose: string;
  /** how often it was opened, and how often since the log was last told */
  openings: number;
  unlogged: number;
  loggedAt: string | null;
  openedAt: string | null;
};
