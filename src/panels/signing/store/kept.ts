import type { SigningKey } from '../../../records/check/index.ts';

/** What the site says once a signed record stands in its log. */
export type Logged = {
  readonly signoff: string;
  /** place in the log, from 0 */
  readonly seq: number;
  readonly state: 'logged' | 'repeat';
  readonly received: string;
  /** newest signed head of the log */
  readonly checkpoint: string;
};

/** Body of the request that takes a signed record to the site, its one-time ticket apart. */
export type SignedRequest = {
  /** the whole event `practical.signed`, as it will stand in the log */
  readonly event: { readonly id: string; readonly by: string; readonly body: object };
  /** the checked sheet, from which the site writes the statement again */
  readonly sheet: unknown;
};

/** A signed record on its way to the site: kept until the site says it has it. */
export type Unsent = {
  /** id of the sign-off and of its event */
  readonly signoff: string;
  /** place in the order of sending, from 1: the clock of a device may be wrong, this is not */
  readonly order: number;
  /** which sheet it came from */
  readonly sheetKey: string;
  readonly title: string;
  /** where the sheet is opened */
  readonly path: string;
  readonly trainer: string;
  readonly signedAt: string;
  readonly request: SignedRequest;
  readonly statementHash: string;
  /** proof of a fresh sign-in on the site, good for minutes; null for a record confirmed on the device */
  readonly ticket: string | null;
  /** digests of the photos that are still to follow */
  readonly photos: readonly string[];
  /** what the site said when it took the record in, while its photos are still on the way */
  readonly logged: Logged | null;
  /** the sheet as it was typed, to be opened again if the site does not take the record */
  readonly drafts: readonly KeptSheet[];
};

/** A record the site would not take, and its one sentence. */
export type RefusedRecord = {
  readonly signoff: string;
  readonly record: Unsent;
  /** HTTP status; 0 when it never came to the site */
  readonly status: number;
  /** the field to blame, empty when none is */
  readonly path: string;
  readonly message: string;
  readonly at: string;
};

export type DeviceLabel = 'tablet' | 'phone' | 'laptop' | 'desktop' | 'other';

/** This device's key of one person. The private half cannot be read out, not even by this page. */
export type DeviceKey = SigningKey & {
  readonly person: string;
  /** whether the site has entered it in the log */
  readonly enrolled: boolean;
};

export type KeptSheet<Sheet = unknown> = {
  readonly sheetKey: string;
  /** whose sheet it is and what for, to find it again by */
  readonly title: string;
  /** where it is opened */
  readonly path: string;
  readonly savedAt: string;
  readonly sheet: Sheet;
};

export type KeptPhoto = {
  /** SHA-256 of the bytes, in hexadecimal */
  readonly digest: string;
  /** a JPEG; not a Blob, which some browsers lose from their store */
  readonly bytes: ArrayBuffer;
  readonly keptAt: string;
  /** signed records that wait to take it to the site; none while it belongs to a draft alone */
  readonly heldBy: readonly string[];
};

/**
 * What tells a password from another one: PBKDF2 over it, with a salt of its own. See `verifier.ts` for
 * what this is worth.
 */
export type Verifier = {
  readonly person: string;
  readonly salt: Uint8Array;
  readonly rounds: number;
  readonly hash: Uint8Array;
  readonly madeAt: string;
  /** when the site's password of this person was last set, as the kit told it */
  readonly passwordSetAt: string;
  /** wrong tries in a row, and the instant in ms before which no other one is taken */
  readonly failures: number;
  readonly blockedUntil: number;
};

export type Note =
  /** whose kit is in use on this device */
  | { readonly name: 'trainer'; readonly person: string }
  /** how far this clock was ahead of the site's when they last spoke, seconds */
  | { readonly name: 'clock'; readonly ahead: number; readonly at: string }
  /** a head of the log from a reply, not yet held to the one kept */
  | { readonly name: 'heard'; readonly note: string }
  /** a log that did not go on: the head kept, and the one found at that instant */
  | { readonly name: 'forked'; readonly kept: string; readonly found: string; readonly at: string }
  /** which tab is sending, where the browser has no locks */
  | { readonly name: 'sending'; readonly owner: string; readonly until: number };
