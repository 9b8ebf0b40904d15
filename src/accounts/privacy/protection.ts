import type { SetId, TableName } from './data-map.ts';

/**
 * How far what is kept has to be protected, from the least to the most. What each level asks for is one table, so
 * that a new set of data has its rules at once; tests/accounts/protection holds the code against it.
 */
export const PROTECTION_LEVELS = ['open', 'workshop', 'personal', 'opens-something'] as const;
export type ProtectionLevel = (typeof PROTECTION_LEVELS)[number];

export type LevelAsks = {
  /** who it is for, in a sentence */
  readonly what: string;
  /** on PostgreSQL a row is shown to its organisation or person alone */
  readonly wall: 'none' | 'needed';
  /** how it lies in a table: as it is, or so that a copy of the table opens nothing */
  readonly lies: 'as-it-is' | 'hashed-or-sealed';
  /** may stand in the copy a person or a workshop takes */
  readonly copies: 'yes' | 'no';
  /** in a line of the log of requests, in the metrics, or in an address: by pattern alone */
  readonly logged: 'never';
  /** what a reply that holds it tells caches */
  readonly caches: 'may-keep' | 'no-store';
  /** a backup holds it and is to be kept as the store itself; nothing encrypts it by itself */
  readonly backup: 'as-the-store';
};

export const LEVELS: Readonly<Record<ProtectionLevel, LevelAsks>> = {
  open: {
    what: 'Hashes and housekeeping that tell nobody anything of anybody.',
    wall: 'none',
    lies: 'as-it-is',
    copies: 'yes',
    logged: 'never',
    caches: 'may-keep',
    backup: 'as-the-store',
  },
  workshop: {
    what: 'Machines, rules and groups: for one workshop, and about nobody by themselves.',
    wall: 'needed',
    lies: 'as-it-is',
    copies: 'yes',
    logged: 'never',
    caches: 'no-store',
    backup: 'as-the-store',
  },
  personal: {
    what: 'About a person: read by whom the table of permissions says, kept and erased as the list says.',
    wall: 'needed',
    lies: 'as-it-is',
    copies: 'yes',
    logged: 'never',
    caches: 'no-store',
    backup: 'as-the-store',
  },
  'opens-something': {
    what: 'Passwords, sessions, links and codes: read by the site alone, shown to nobody again.',
    wall: 'needed',
    lies: 'hashed-or-sealed',
    copies: 'no',
    logged: 'never',
    caches: 'no-store',
    backup: 'as-the-store',
  },
};

/** The level of each set; a column that is secret has `opens-something`, whatever its set has. */
export const LEVEL_OF_SET: Readonly<Record<SetId, ProtectionLevel>> = {
  account: 'personal',
  joined: 'personal',
  session: 'personal',
  'sign-in': 'personal',
  factors: 'personal',
  invitation: 'personal',
  group: 'personal',
  learning: 'personal',
  attempt: 'personal',
  sitting: 'personal',
  'open-sitting': 'personal',
  'pass-mark': 'workshop',
  practical: 'personal',
  photo: 'personal',
  practice: 'personal',
  authorisation: 'personal',
  earlier: 'personal',
  machine: 'workshop',
  'near-miss': 'personal',
  device: 'personal',
  calendar: 'personal',
  share: 'personal',
  wish: 'personal',
  organisation: 'workshop',
  log: 'personal',
  housekeeping: 'open',
};

/** Tables of a set with more in it, that hold hashes of the whole log alone. */
const OPEN_TABLES: ReadonlySet<TableName> = new Set(['tree_node', 'log_head']);

/** The level of one column. */
export function levelOf(
  table: TableName,
  { set, secret = [] }: { readonly set: SetId; readonly secret?: readonly string[] },
  column: string,
): ProtectionLevel {
  if (secret.includes(column)) return 'opens-something';
  return OPEN_TABLES.has(table) ? 'open' : LEVEL_OF_SET[set];
}
