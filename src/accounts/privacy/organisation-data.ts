import { asOrganisation } from '../../store/index.ts';
import { can } from '../can.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import { TABLE_NAMES, TABLES_KEPT, type TableName } from './data-map.ts';
import { type Row, showRow } from './rows-of.ts';

/** What a whole export says of each table: what it is, or why its rows are not in the file. */
const TABLES_GIVEN: Readonly<
  Record<TableName, { readonly is: string } | { readonly not: string }>
> = {
  organisation: { is: 'The workshop itself. Its salt keys the hash of its name in the log.' },
  retention_choice: { is: 'The months the workshop chose to keep photos and accounts.' },
  membership: { is: 'Who belongs to the workshop. The salt keys the hash of the name in the log.' },
  user: { is: 'Names and e-mail addresses of those people.' },
  person_group: { is: 'Groups of people.' },
  person_group_member: { is: 'Who is in which group.' },
  invitation: { is: 'Invitations, without what would open them.' },
  reset_link: { is: 'Links for a new password, without what would open them.' },
  share_link: { is: 'Links for inspectors, without what would open them.' },
  earlier_training: {
    is: 'Words of training stated on paper. The salt keys their hash in the log.',
  },
  erasure_wish: { is: 'Who has asked to be erased.' },
  photo: { is: 'Photos taken at practicals, as base 64. The log holds their digest.' },
  event: { is: 'The records of the log: they stand under "events".' },
  log_head: { not: 'The checkpoint of the whole log stands at the head of this file.' },
  tree_node: { not: 'Hashes of the whole log. Each record carries its own.' },
  account: { not: 'Passwords.' },
  session: { not: 'Who is signed in now.' },
  passkey: { not: 'A way for one person to sign in.' },
  code_maker: { not: 'A way for one person to sign in.' },
  recovery_code: { not: 'A way for one person to sign in.' },
  sign_in_step: { not: 'A sign-in under way.' },
  passkey_challenge: { not: 'A sign-in under way.' },
  sign_in_ticket: { not: 'A sign-in under way.' },
  sign_in_try: { not: 'Failed sign-ins, of no one workshop.' },
  verification: { not: 'A sign-in under way.' },
  calendar_address: { not: 'Belongs to one person alone, who can take a copy.' },
  learning_answer: { not: 'Belongs to one person alone, who can take a copy.' },
  open_sitting: {
    not: 'Belongs to one person alone until it is handed in; then it is in the log.',
  },
  kysely_migration: { not: 'Housekeeping of the site.' },
  kysely_migration_lock: { not: 'Housekeeping of the site.' },
};

const EVENTS_AT_A_TIME = 500;
const ABOUT_EVENTS =
  'Every record of this workshop in the order of the log. "text" is the record as it is stored (RFC 8785), "index" its place in the log from 0, "leafHash" the RFC 6962 leaf hash noted when it was entered. "broken" says what no longer fits, and is null where all does.';

/** The tables whose rows are in the file; `event` has a part of its own. */
export const TABLES_IN_EXPORT: readonly TableName[] = TABLE_NAMES.filter(
  (name) => name !== 'event' && 'is' in TABLES_GIVEN[name],
);

const lineOf = (name: TableName, row: Row): string => JSON.stringify(showRow(name, row));

/** Columns are named one by one, so that a secret is not even read. */
function rowsOf(name: TableName, org: string, { store: { db } }: Site) {
  const { of, columns, secret } = TABLES_KEPT[name];
  if (of === 'nobody') throw new RangeError(`the rows of ${name} belong to nobody.`);
  const hidden: readonly string[] = secret ?? [];
  const query = db
    .selectFrom(name as 'photo')
    .select(columns.filter((column) => !hidden.includes(column)) as 'digest'[]);
  if ('org' in of) return query.where(of.org as 'org', '=', org);
  if ('group' in of) {
    const groups = db.selectFrom('person_group').select('id').where('org', '=', org);
    return query.where(of.group as 'org', 'in', groups);
  }
  const people = db.selectFrom('membership').select('person').where('org', '=', org);
  return query.where(of.person as 'org', 'in', people);
}

/** Rows as lines in an order that both databases share; of photos one at a time is in memory. */
async function* linesOf(name: TableName, org: string, site: Site): AsyncGenerator<string> {
  const query = rowsOf(name, org, site);
  if (name !== 'photo') {
    const rows = await query.execute();
    yield* rows.map((row) => lineOf(name, row)).sort();
    return;
  }
  const keys = await query.clearSelect().select(['digest', 'signoff']).execute();
  const inOrder = keys.map(({ digest, signoff }) => [digest, signoff] as const).sort();
  for (const [digest, signoff] of inOrder) {
    const one = query.where('digest', '=', digest).where('signoff', '=', signoff);
    // it may have been erased since
    const row = await one.executeTakeFirst();
    if (row !== undefined) yield lineOf(name, row);
  }
}

async function* linesOfEvents(org: string, size: number, { store }: Site): AsyncGenerator<string> {
  for (let after = -1; ; ) {
    const some = await store.events({ org, after, limit: EVENTS_AT_A_TIME });
    for (const { seq, text, leafHash, broken } of some) {
      // entered while the file is written: the checkpoint at its head does not cover it
      if (seq >= size) return;
      const hash = leafHash === null ? null : Buffer.from(leafHash).toString('hex');
      yield JSON.stringify({ index: seq, leafHash: hash, broken, text });
    }
    const last = some.at(-1);
    if (last === undefined || some.length < EVENTS_AT_A_TIME) return;
    after = last.seq;
  }
}

async function* listOf(lines: AsyncIterable<string>): AsyncGenerator<string> {
  let before = '[\n';
  for await (const line of lines) {
    yield `${before}${line}`;
    before = ',\n';
  }
  yield before === '[\n' ? '[]' : '\n]';
}

async function* piecesOf(org: string, site: Site, takenAt: string): AsyncGenerator<string> {
  const { db } = site.store;
  const head = await db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
  const organisation = await db
    .selectFrom('organisation')
    .select(['id', 'name'])
    .where('id', '=', org)
    .executeTakeFirstOrThrow();
  const header = {
    schema: 'signed-to-saw/organisation-data/1',
    takenAt,
    organisation,
    log: { size: head.size, checkpoint: head.note },
    parts: { events: ABOUT_EVENTS, tables: TABLES_GIVEN },
  };
  yield `${JSON.stringify(header, null, 2).slice(0, -2)},\n"events": `;
  yield* listOf(linesOfEvents(org, head.size, site));
  yield ',\n"tables": {';
  for (const [at, name] of TABLES_IN_EXPORT.entries()) {
    yield `${at === 0 ? '' : ','}\n"${name}": `;
    yield* listOf(linesOf(name, org, site));
  }
  yield '\n}\n}\n';
}

type Pieces = AsyncIterable<string> & Pick<AsyncGenerator<string>, 'next' | 'return'>;

/**
 * All that is kept of the viewer's organisation and of no other, as the pieces of one JSON file. Each piece is read
 * when it is asked for; the same state at the same instant gives the same bytes.
 */
export function organisationData(
  viewer: Viewer | null,
  site: Site,
  now: Date = new Date(),
): Outcome<Pieces> {
  if (viewer === null || !can(viewer, 'organisation-data.read', { org: viewer.org })) {
    return refuseAs(403, '', { key: 'privacy.whole' });
  }
  const { org } = viewer;
  const pieces = piecesOf(org, site, now.toISOString());
  // pieces are asked for after the request was answered, so each says anew for whom the database is asked
  return grant({
    next: () => asOrganisation(org, () => pieces.next()),
    return: () => asOrganisation(org, () => pieces.return(undefined)),
    [Symbol.asyncIterator]() {
      return this;
    },
  });
}
