import { organisationName, type Site } from '../../accounts/index.ts';
import {
  type CheckedPart,
  checkPieces,
  type RecordPieces,
} from '../../panels/proof/pieces/index.ts';
import {
  buildProof,
  buildStatusList,
  didOf,
  type EventOf,
  nameHash,
  type ProofFile,
  type ProvedEntry,
  type ShownName,
  type Statement,
  statusPlaceOf,
  stoppedSignoffs,
  toHex,
  type Verdict,
  verifyProof,
} from '../../records/index.ts';
import type { StoredEvent } from '../../store/index.ts';
import { alignmentsOf } from './alignments-of.ts';
import { signedAroundEnds } from './signed-around-ends.ts';

/** How long a status list may be relied on, ms: a week, so that a printed sheet soon reads "unknown". */
const STATUS_HOLDS = 7 * 86_400_000;

export type SignedEvent = EventOf<'practical.signed'>;

/** What the site can say of one signed practical, worked out afresh from the stored bytes. */
export type RecordView =
  | { readonly state: 'none' }
  /** signed off, and every check of the proof was made */
  | {
      readonly state: 'proved';
      readonly event: SignedEvent;
      readonly file: ProofFile;
      readonly verdict: Verdict;
    }
  /** signed with the decision "not yet": there is a record, and nothing to prove */
  | {
      readonly state: 'not-yet';
      readonly event: SignedEvent;
      readonly checks: readonly CheckedPart[];
    }
  /** what is stored is not what was signed and logged */
  | {
      readonly state: 'broken';
      readonly sentence: string;
      /** what can still be read, for display beside the reason; never to be relied on */
      readonly event: SignedEvent | null;
      readonly pieces: RecordPieces;
      readonly checks: readonly CheckedPart[];
    };

type Enrolment = StoredEvent<'device-key.enrolled'>;

async function findEnrolment(
  org: string,
  keyId: string,
  { store }: Site,
): Promise<Enrolment | null> {
  const all = await store.events({ org, kinds: ['device-key.enrolled'] });
  return all.find(({ event }) => event?.body.keyId === keyId) ?? null;
}

const placeOf = (proved: ProvedEntry | undefined): RecordPieces['enrolmentPlace'] =>
  proved === undefined ? null : { index: proved.entry.index, path: proved.path.map(toHex) };

/**
 * Names as the accounts have them today, each with the salt that ties it to what was signed. A name that
 * has changed since is left out: it is not the one that was signed for.
 */
async function shownNames(
  { who, trainer }: Pick<Statement, 'who' | 'trainer'>,
  { store }: Site,
): Promise<{ trainee?: ShownName; trainer?: ShownName }> {
  const rows = await store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'membership.salt', 'user.name'])
    .where('membership.person', 'in', [who.person, trainer.person])
    .execute();
  const shown = (signed: Statement['who']): ShownName | undefined => {
    const row = rows.find(({ person }) => person === signed.person);
    if (row === undefined || nameHash(row.name, row.salt) !== signed.nameHash) return undefined;
    return { name: row.name, salt: row.salt };
  };
  const [trainee, by] = [shown(who), shown(trainer)];
  return {
    ...(trainee === undefined ? {} : { trainee }),
    ...(by === undefined ? {} : { trainer: by }),
  };
}

async function statusNow(index: number, org: string, now: Date, site: Site) {
  const { signed, withdrawals } = await signedAroundEnds(org, site);
  // a damaged withdrawal may be the one of this record: nothing is then known, and "genuine" is not said
  if (withdrawals.some(({ broken }) => broken !== null)) return null;
  const places = new Map(
    signed.flatMap(({ event, seq }) => (event === null ? [] : [[event.id, seq]])),
  );
  const all = [...signed, ...withdrawals].flatMap(({ event }) => event ?? []);
  const gone = [
    ...withdrawals.flatMap(({ event }) => event?.body.signoff ?? []),
    // a stop that reached the log after the sign-off ended that practical all the same
    ...stoppedSignoffs(all),
  ];
  const withdrawn = [...new Set(gone)].flatMap((signoff) => places.get(signoff) ?? []);
  return buildStatusList(site.siteKey, {
    list: statusPlaceOf(index).list,
    withdrawn,
    asOf: now.toISOString(),
    validUntil: new Date(now.getTime() + STATUS_HOLDS).toISOString(),
  });
}

/** The record of one signed practical with its proof, checked on the spot. */
export async function recordOf(
  signoff: string,
  org: string,
  site: Site,
  now: Date = new Date(),
): Promise<RecordView> {
  const stored = await site.store.event(signoff);
  if (stored === null) return { state: 'none' };
  const event = stored.event?.kind === 'practical.signed' ? stored.event : null;
  if (stored.event !== null && event === null) return { state: 'none' };
  if (event !== null && event.org !== org) return { state: 'none' };
  const enrolment = event === null ? null : await findEnrolment(org, event.body.keyId, site);
  const seqs = enrolment === null ? [stored.seq] : [stored.seq, enrolment.seq];
  const { checkpoint, entries } = await site.store.prove(seqs);
  const [signedEntry, enrolledEntry] = entries;
  const issuer = didOf(site.siteKey.keyId);
  const pieces: RecordPieces = {
    event: stored.text,
    enrolment: enrolment?.text ?? null,
    checkpoint,
    eventPlace: placeOf(signedEntry) ?? { index: stored.seq, path: [] },
    enrolmentPlace: placeOf(enrolledEntry),
    issuer,
  };
  const checks = await checkPieces(pieces);
  const failed = checks.find(({ state }) => state === 'failed');
  const reason = stored.broken ?? enrolment?.broken ?? failed?.sentence ?? null;
  if (reason !== null || event === null || !signedEntry || !enrolledEntry) {
    const sentence = reason ?? 'The record or the key that signed it cannot be found whole.';
    return { state: 'broken', sentence, event, pieces, checks };
  }
  const { statement } = event.body;
  if (statement.decision === 'not-yet') return { state: 'not-yet', event, checks };
  const issuedAt = now.toISOString();
  const file = await buildProof(
    {
      signoff: signedEntry,
      enrolment: enrolledEntry,
      checkpoint,
      organisation: await organisationName(org, site),
      names: await shownNames(statement, site),
      alignments: alignmentsOf([statement.unit.id], issuer),
      status: await statusNow(stored.seq, org, now, site),
      issuedAt,
    },
    site.siteKey,
  );
  const verdict = await verifyProof(file, { trusted: [issuer], at: issuedAt });
  return { state: 'proved', event, file, verdict };
}
