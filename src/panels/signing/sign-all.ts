import english from '../../../content/messages/en/signing.json' with { type: 'json' };
import { SignoffError, signStatement } from '../../records/check/index.ts';
import type { Statement } from '../../records/index.ts';
import { sayFrom } from '../../words/spoken.ts';
import { statementHashOf } from './enrolment-hash.ts';
import { keptKit, sayNotKept } from './kit.ts';
import { confirmByPasskey } from './ready/confirm-by-passkey.ts';
import { confirmOnSite, enrol, MOST_AT_ONCE } from './ready/enrol.ts';
import { checkOnDevice } from './ready/verifier.ts';
import { type FlushReport, flush } from './send/flush.ts';
import { keepSending } from './send/keep-sending.ts';
import { deviceKeyOf, markEnrolled } from './store/device-key.ts';
import type { DeviceKey, DeviceLabel, Logged, RefusedRecord, Unsent } from './store/kept.ts';
import { allUnsent, keepSigned, PhotoMissing, refusedOf, type Signed } from './store/outbox.ts';

const say = sayFrom('signing', english);

export type SignAllInput = {
  /** each statement with the checked sheet from which the site writes it again */
  readonly units: readonly { readonly statement: Statement; readonly sheet: unknown }[];
  /** drafts that are done with once the records are kept */
  readonly sheetKeys: readonly string[];
  readonly title: string;
  readonly path: string;
  /** empty when a passkey stands in for it */
  readonly password: string;
  readonly by?: 'password' | 'passkey';
  readonly device: DeviceLabel;
};

/** Where one signed unit has got to. */
export type SignedUnit = {
  readonly signoff: string;
  readonly state: 'logged' | 'kept' | 'refused';
  readonly logged: Logged | null;
  readonly refused: RefusedRecord | null;
};

export type SignAllOutcome =
  /** every unit stands in the log; `left` counts records whose photos are still on the way */
  | { readonly state: 'logged'; readonly units: readonly SignedUnit[]; readonly left: number }
  /** signed and kept on this device; not all of it is in the log, and `message` says why */
  | { readonly state: 'kept'; readonly units: readonly SignedUnit[]; readonly message: string }
  /** nothing was signed; the sheet is still there */
  | { readonly state: 'refused'; readonly path: string; readonly message: string };

type Refused = Extract<SignAllOutcome, { state: 'refused' }>;
type Tickets = { readonly tickets: readonly (string | null)[] };

const refuse = (path: string, message: string): Refused => ({ state: 'refused', path, message });

/** Where these statements say they are confirmed. The first form knew no other place than the site. */
const placeOf = (statement: Statement): 'site' | 'device' =>
  statement.schema === 'statement/1' ? 'site' : statement.confirmed;

const photosOf = (statement: Statement): readonly string[] =>
  statement.schema === 'statement/1' ? [] : statement.photos.map(({ digest }) => digest);

async function confirmHere(
  trainer: string,
  key: DeviceKey,
  password: string,
  count: number,
): Promise<Tickets | Refused> {
  // the site would not know the key, and nothing but the key speaks for the trainer there
  if (!key.enrolled) return refuse('password', say('not-ready'));
  const checked = await checkOnDevice(trainer, password);
  if (checked.state === 'none') return refuse('password', say('not-ready'));
  if (checked.state === 'wrong') return refuse('password', say('wrong-password'));
  if (checked.state === 'wait') return refuse('password', say.count('wait', checked.seconds));
  return { tickets: Array.from({ length: count }, () => null) };
}

async function confirmThere(
  input: SignAllInput,
  key: DeviceKey,
  hashes: readonly string[],
): Promise<Tickets | Refused> {
  const reply =
    input.by === 'passkey'
      ? await confirmByPasskey(hashes, key, say('passkey.failed'))
      : await confirmOnSite(input.password, hashes, key);
  if (!reply.ok) return refuse(reply.path, reply.message);
  const enrolled = await enrol(key, input.device, reply.value.enrolTicket);
  if (!enrolled.ok) return refuse(enrolled.path, enrolled.message);
  return { tickets: reply.value.tickets };
}

async function signUnit(
  { statement, sheet }: SignAllInput['units'][number],
  key: DeviceKey,
  given: { readonly ticket: string | null; readonly at: string; readonly input: SignAllInput },
): Promise<Signed> {
  const { input, ticket, at } = given;
  const trainer = statement.trainer.person;
  const body = await signStatement(statement, key);
  const event = {
    id: statement.signoff,
    kind: 'practical.signed',
    version: 1,
    org: statement.org,
    at,
    by: trainer,
    about: statement.who.person,
    body,
  };
  return {
    signoff: statement.signoff,
    sheetKey: input.sheetKeys[0] ?? '',
    title: input.title,
    path: input.path,
    trainer,
    signedAt: at,
    request: { event, sheet },
    statementHash: statementHashOf(statement),
    ticket,
    photos: photosOf(statement),
  };
}

/** A clock that is behind what the site said when it made the kit is certainly wrong. */
async function whyNotNow(now: number): Promise<string | null> {
  const kit = await keptKit().catch(() => null);
  if (kit === null || now > Date.parse(kit.madeAt) - 86_400_000) return null;
  return say('clock-behind');
}

/** What became of the records once they were kept and an attempt at sending was made. */
async function outcomeOf(
  kept: readonly Unsent[],
  report: FlushReport | null,
  key: DeviceKey,
): Promise<SignAllOutcome> {
  const sent = new Map((report?.sent ?? []).map((one) => [one.signoff, one]));
  const waiting = new Map((await allUnsent()).map((one) => [one.signoff, one]));
  const trainer = kept[0]?.trainer ?? '';
  const refused = new Map((await refusedOf(trainer)).map((one) => [one.signoff, one]));
  const units = kept.map(({ signoff }): SignedUnit => {
    const aside = refused.get(signoff);
    const left = waiting.get(signoff);
    const logged = sent.get(signoff) ?? aside?.record.logged ?? left?.logged ?? null;
    if (aside !== undefined) return { signoff, state: 'refused', logged, refused: aside };
    if (left !== undefined && logged === null) {
      return { signoff, state: 'kept', logged: null, refused: null };
    }
    return { signoff, state: 'logged', logged, refused: null };
  });
  const [aside] = units.flatMap((one) => (one.refused === null ? [] : [one.refused]));
  // a site that does not know the key was put back from an older copy, or has ended it: enrol it again
  if (aside?.path === 'keyId') await markEnrolled(key, 'not');
  if (units.every(({ state }) => state === 'logged')) {
    return { state: 'logged', units, left: units.filter((one) => waiting.has(one.signoff)).length };
  }
  const message = aside?.message ?? (report?.message || say('not-reached'));
  return { state: 'kept', units, message };
}

/**
 * Signs every unit of one practical with one password: the sign-in first, then the signatures, then all of
 * it on the disk of this device in one step, and only then the way to the site.
 */
export async function signAll(input: SignAllInput): Promise<SignAllOutcome> {
  const statements = input.units.map(({ statement }) => statement);
  const [first] = statements;
  if (first === undefined || statements.length > MOST_AT_ONCE) {
    return refuse('units', say('how-many', { most: MOST_AT_ONCE }));
  }
  const trainer = first.trainer.person;
  const place = placeOf(first);
  if (statements.some((one) => one.trainer.person !== trainer || placeOf(one) !== place)) {
    return refuse('confirmed', say('not-alike'));
  }
  try {
    const now = new Date();
    const why = await whyNotNow(now.getTime());
    if (why !== null) return refuse('at', why);
    const key = await deviceKeyOf(trainer);
    const hashes = statements.map(statementHashOf);
    const confirmed =
      place === 'site'
        ? await confirmThere(input, key, hashes)
        : await confirmHere(trainer, key, input.password, statements.length);
    if ('state' in confirmed) return confirmed;
    const at = now.toISOString();
    const signed = await Promise.all(
      input.units.map((unit, index) =>
        signUnit(unit, key, { ticket: confirmed.tickets[index] ?? null, at, input }),
      ),
    );
    const kept = await keepSigned(signed, input.sheetKeys);
    const report = await flush('wait').catch(() => null);
    const outcome = await outcomeOf(kept, report, key);
    // what could not go now goes by itself as soon as it can
    if (report === null || report.left > 0) keepSending();
    return outcome;
  } catch (error) {
    if (error instanceof SignoffError) return refuse('', error.message);
    if (error instanceof PhotoMissing) return refuse('photos', say('photo.missing'));
    return refuse('', sayNotKept(error));
  }
}
