import { organisationName, type Site } from '../../accounts/index.ts';
import {
  type AuthorisationProofFile,
  buildAuthorisationProof,
  buildStatusList,
  didOf,
  type EventOf,
  type LogEvent,
  nameHash,
  newSalt,
  type ShownLevel,
  type ShownName,
  type StatusPurpose,
  standingMarks,
  statusPlaceOf,
  type Verdict,
  verifyProof,
} from '../../records/index.ts';
import type { StoredEvent } from '../../store/index.ts';
import { alignmentsOf } from './alignments-of.ts';
import { readTogether } from './read-events.ts';
import { type Done, refusedFor } from './refused.ts';
import { signedAroundEnds } from './signed-around-ends.ts';

/** How long a status list may be relied on, ms: a week. */
const STATUS_HOLDS = 7 * 86_400_000;

export type LeaveAsked = {
  readonly shown: ShownLevel;
  readonly names: 'shown' | 'left-out';
  /** makes the salt of each part that is cut out; fresh chance unless given */
  readonly salt?: () => string;
};

export type LeaveProof = {
  readonly event: EventOf<'authorisation.given'>;
  readonly file: AuthorisationProofFile;
  readonly verdict: Verdict;
};

type Signed = StoredEvent & { readonly event: EventOf<'practical.signed'> };
type Person = { readonly person: string; readonly nameHash: string };

const isKind = <Kind extends LogEvent['kind']>(
  stored: StoredEvent,
  kind: Kind,
): stored is StoredEvent & { readonly event: Extract<LogEvent, { kind: Kind }> } =>
  stored.event?.kind === kind;

/** Whether the rules in force ask for a second person before leave counts. */
function needsSecond(events: readonly StoredEvent[]): boolean {
  const rules = events.filter((one) => isKind(one, 'organisation.rules-set')).at(-1);
  return rules !== undefined && rules.event.body.second !== 'nothing';
}

function findSecond(events: readonly StoredEvent[], given: EventOf<'authorisation.given'>) {
  return (
    events
      .filter((one) => isKind(one, 'authorisation.seconded'))
      .find(
        ({ event: { body, by } }) =>
          body.authorisation === given.id &&
          body.answer === 'agrees' &&
          by !== given.by &&
          by !== given.about,
      ) ?? null
  );
}

/** Names as the accounts have them, each with the salt that ties it to what was signed; changed ones left out. */
async function namesOf(
  people: readonly Person[],
  { store }: Site,
): Promise<(person: Person) => ShownName | undefined> {
  const rows = await store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'membership.salt', 'user.name'])
    .where(
      'membership.person',
      'in',
      people.map(({ person }) => person),
    )
    .execute();
  return ({ nameHash: signed, person }) => {
    const row = rows.find((one) => one.person === person);
    if (row === undefined || nameHash(row.name, row.salt) !== signed) return undefined;
    return { name: row.name, salt: row.salt };
  };
}

async function pickNames(
  given: EventOf<'authorisation.given'>,
  signed: readonly Signed[],
  site: Site,
): Promise<AuthorisationProofFile['names']> {
  const { by, who } = given.body.statement;
  const trainers = signed.map(({ event }) => event.body.statement.trainer);
  const nameOf = await namesOf([by, who, ...trainers], site);
  const [trainee, giver] = [nameOf(who), nameOf(by)];
  const shown = trainers.flatMap((trainer) => nameOf(trainer) ?? []);
  const each = shown.filter(({ salt }, at) => shown.findIndex((one) => one.salt === salt) === at);
  return {
    ...(trainee === undefined ? {} : { trainee }),
    ...(giver === undefined ? {} : { giver }),
    trainers: each,
  };
}

/** The lists these places lie in. A damaged event may be the one that ends this: nothing is then known. */
async function listsFor(
  places: { readonly own: number; readonly all: readonly number[] },
  { events, now, site }: { events: readonly StoredEvent[]; now: Date; site: Site },
): Promise<AuthorisationProofFile['status']> {
  if (events.some(({ broken }) => broken !== null)) return { revocation: [], suspension: [] };
  const marks = standingMarks(
    events.flatMap(({ event, seq }) => (event === null ? [] : [{ event, index: seq }])),
  );
  const make = (purpose: StatusPurpose, indexes: readonly number[]) => {
    const lists = [...new Set(indexes.map((index) => statusPlaceOf(index).list))];
    return Promise.all(
      lists.map((list) =>
        buildStatusList(site.siteKey, {
          list,
          purpose,
          withdrawn: marks[purpose],
          asOf: now.toISOString(),
          validUntil: new Date(now.getTime() + STATUS_HOLDS).toISOString(),
        }),
      ),
    );
  };
  return {
    revocation: await make('revocation', places.all),
    suspension: await make('suspension', [places.own]),
  };
}

/** What is read of the log whole: all that decides whether leave stands. Of the sign-offs only some are read. */
const KINDS = [
  'authorisation.ended',
  'authorisation.given',
  'authorisation.refreshed',
  'authorisation.seconded',
  'authorisation.suspended',
  'bench.registered',
  'device-key.enrolled',
  'near-miss.reported',
  'organisation.rules-set',
] as const;

/** Leave to work by its id, in one organisation, or null. */
export async function findLeave(
  id: string,
  org: string,
  { store }: Site,
): Promise<EventOf<'authorisation.given'> | null> {
  const event = (await store.event(id))?.event ?? null;
  return event?.kind === 'authorisation.given' && event.org === org ? event : null;
}

/** All that bears on whether leave in this organisation stands, with the sign-offs that this leave rests on. */
async function readStanding(
  { body, org }: EventOf<'authorisation.given'>,
  site: Site,
): Promise<readonly StoredEvent[]> {
  const whole = (await site.store.events({ org, kinds: KINDS })) as StoredEvent[];
  const { signed, withdrawals } = await signedAroundEnds(org, site);
  const about = body.statement.who.person;
  const own = await site.store.events({ org, kinds: ['practical.signed'], about });
  return readTogether(whole, signed, withdrawals, own).stored;
}

/** The proof of leave to work, made and checked on the spot. Whether the viewer may have it was asked before. */
export async function leaveProofOf(
  given: EventOf<'authorisation.given'>,
  { names, salt = newSalt, shown }: LeaveAsked,
  site: Site,
  now: Date = new Date(),
): Promise<Done<LeaveProof>> {
  const events = await readStanding(given, site);
  const own = events.find(({ event }) => event?.id === given.id);
  const second = findSecond(events, given);
  if (second === null && needsSecond(events)) return refusedFor(409, 'id', 'desk.leave.second');
  const signed = given.body.statement.basis.flatMap(
    (id) =>
      events
        .filter((one) => isKind(one, 'practical.signed'))
        .find(({ event }) => event.id === id) ?? [],
  );
  const enrolments = signed.flatMap(
    ({ event }) =>
      events
        .filter((one) => isKind(one, 'device-key.enrolled'))
        .find((one) => one.event.body.keyId === event.body.keyId) ?? [],
  );
  const isWhole =
    own !== undefined &&
    signed.length === given.body.statement.basis.length &&
    enrolments.length === signed.length;
  if (!isWhole) return refusedFor(409, 'id', 'desk.leave.lost');
  const seqs = [own, ...signed, ...enrolments, ...(second === null ? [] : [second])].map(
    ({ seq }) => seq,
  );
  const { checkpoint, entries } = await site.store.prove(seqs);
  const at = (seq: number) => entries[seqs.indexOf(seq)] as (typeof entries)[number];
  const issuer = didOf(site.siteKey.keyId);
  const issuedAt = now.toISOString();
  try {
    const file = await buildAuthorisationProof(
      {
        authorisation: at(own.seq),
        second: second === null ? null : at(second.seq),
        basis: signed.map((one, index) => ({
          signoff: at(one.seq),
          enrolment: at((enrolments[index] as StoredEvent).seq),
        })),
        checkpoint,
        organisation: await organisationName(given.org, site),
        shown,
        names: names === 'shown' ? await pickNames(given, signed, site) : {},
        alignments: alignmentsOf(
          signed.map(({ event: { body } }) => body.statement.unit.id),
          issuer,
        ),
        status: await listsFor(
          { own: own.seq, all: [own.seq, ...signed.map(({ seq }) => seq)] },
          { events, now, site },
        ),
        issuedAt,
        salt,
      },
      site.siteKey,
    );
    const verdict = await verifyProof(file, { trusted: [issuer], at: issuedAt });
    return { ok: true, value: { event: given, file, verdict } };
  } catch (error) {
    if (!(error instanceof Error) || error.name !== 'ProofError') throw error;
    return refusedFor(409, 'id', 'desk.leave.broken', { why: error.message });
  }
}
