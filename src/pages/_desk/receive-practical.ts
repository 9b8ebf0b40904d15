import { z } from 'zod';
import {
  appendSigned,
  can,
  type Person,
  personOf,
  type Site,
  type Viewer,
} from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { rulesOf, type Sheet, SheetSchema } from '../../competence/index.ts';
import { statementHashOf } from '../../panels/signing/index.ts';
import { checkSignoff, type EventOf, readEventDraft, type Statement } from '../../records/index.ts';
import { isEventRefused, isIdConflict, type StoreWrite } from '../../store/index.ts';
import { findDeviceKey, isKeyEnded } from './find-device-key.ts';
import { findDifference, findParts, rebuildStatement } from './rebuild-statement.ts';
import { refuseKey, refuseSignature } from './refuse-key.ts';
import { type Done, type Refused, refused, refusedFor } from './refused.ts';
import { registersSince } from './registers-since.ts';
import { isStopped } from './stopped-practical.ts';
import { registerShopOf, type Shop, whyNotWrite } from './workshop.ts';

const must = 'must be the ticket of a fresh sign-in';
const RequestSchema = z.strictObject(
  {
    event: z.record(z.string(), z.unknown(), { error: 'must be the signed event' }),
    sheet: z
      .record(z.string(), z.unknown(), { error: 'must be the practical sheet' })
      .pipe(SheetSchema),
    /** null for what was confirmed on the device */
    ticket: z.string({ error: must }).min(1, { error: must }).max(200, { error: must }).nullable(),
  },
  { error: 'must hold event, sheet and ticket, and nothing else' },
);

/** What a trainer's device is told once the record stands in the log. The same for every delivery of it. */
export type Logged = {
  readonly signoff: string;
  readonly seq: number;
  readonly state: 'logged';
  readonly received: string;
  readonly checkpoint: string;
};

type SignedDraft = Omit<EventOf<'practical.signed'>, 'received'>;

async function enter(
  viewer: Viewer,
  event: SignedDraft,
  ticket: string | null,
  site: Site,
): Promise<Done<Logged>> {
  const { statement } = event.body;
  const isOnDevice = statement.schema !== 'statement/1' && statement.confirmed === 'device';
  const proof = isOnDevice
    ? { place: 'device' as const }
    : { ticket, statementHash: statementHashOf(statement) };
  let isEnded = false;
  // looked at again at the moment of entry: a device may be reported lost while its record is on the way
  const holds = async (write: StoreWrite) => {
    isEnded = await isKeyEnded(write, viewer, event.body.keyId);
    return !isEnded;
  };
  try {
    const entered = await appendSigned(viewer, event, { ...proof, holds }, site);
    if (!entered.ok && isEnded) return refuseKey();
    if (!entered.ok) return { ok: false, ...entered.refusal };
    const { event: logged, seq } = entered.value;
    return {
      ok: true,
      value: {
        signoff: event.id,
        seq,
        state: 'logged',
        received: logged.received,
        checkpoint: await site.store.checkpoint(),
      },
    };
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    if (isEventRefused(error)) return refused(422, error.problem.path, error.problem.message);
    throw error;
  }
}

/** What changed on the site since the device last heard of it, told by the first field that differs. */
function sayChanged(difference: string, signed: Statement, now: Statement): Refused {
  const path = `statement.${difference}`;
  if (signed.unit.version !== now.unit.version) {
    const versions = { was: signed.unit.version, now: now.unit.version };
    return refusedFor(422, path, 'desk.changed.unit', { unit: now.unit.title, ...versions });
  }
  if (signed.limits.set !== now.limits.set || signed.limits.version !== now.limits.version) {
    const versions = { was: signed.limits.version, now: now.limits.version };
    return refusedFor(422, path, 'desk.changed.limits', { set: now.limits.set, ...versions });
  }
  if (difference.startsWith('bench.')) {
    const { asset } = now.bench;
    return refusedFor(422, path, 'desk.changed.bench', { asset, field: difference });
  }
  return refusedFor(422, path, 'desk.differs', { field: difference });
}

/**
 * Whether the site writes the very same statement from the sheet, with the bench as the register has it now
 * or had it at any time since the record was signed.
 */
function holdAgainst(
  shop: Shop,
  sheet: Sheet,
  event: SignedDraft,
  given: {
    readonly viewer: Viewer;
    readonly who: Person | null;
    readonly trainer: Person;
    readonly received: Date;
  },
): Done<null> {
  const { statement, signoff } = event.body;
  // the organisation may have chosen another interval while the device was away: either counts
  const rules = [event.at, given.received.toISOString()].map((at) => rulesOf(shop.events, at));
  const months = Math.max(...rules.map((one) => one.months));
  let first: Refused | null = null;
  for (const benches of registersSince(shop.events, sheet.bench, event.at)) {
    const parts = findParts({ ...shop, benches }, sheet, given.who);
    const rebuilt = parts.ok
      ? rebuildStatement(sheet, parts.value, { ...given, months, signoff, signedAt: event.at })
      : parts;
    if (!rebuilt.ok) {
      first ??= rebuilt;
      continue;
    }
    const difference = findDifference(rebuilt.value, statement);
    if (difference === null) return { ok: true, value: null };
    first ??= sayChanged(difference, statement, rebuilt.value);
  }
  return first ?? refusedFor(422, 'bench', 'desk.part.bench');
}

/**
 * Takes in a signed practical: only from a trainer, not about themselves, signed by their own enrolled key
 * after a fresh sign-in on the site, or on the device where it says so, and only when the site writes the very
 * same statement from the sheet.
 */
export async function receivePractical(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  received: Date = new Date(),
): Promise<Done<Logged>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (viewer.role !== 'trainer') return refusedFor(403, '', whyNotWrite(viewer));
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The request');
    return refused(400, path, message);
  }
  const { event: given, sheet, ticket } = read.data;
  if (!can(viewer, 'practical.sign', { org: viewer.org, person: sheet.person })) {
    return refusedFor(403, 'person', whyNotWrite(viewer));
  }
  const drafted = readEventDraft(given);
  if (!drafted.ok) return refused(422, drafted.error.path, drafted.error.message);
  const event = drafted.event;
  if (event.kind !== 'practical.signed') {
    return refused(422, 'event.kind', 'event.kind must be practical.signed.');
  }
  if (event.org !== viewer.org || event.by !== viewer.person) {
    return refused(403, 'event.by', 'event.by must be the person who is signed in.');
  }
  if (event.id !== event.body.signoff) {
    return refused(422, 'event.id', 'event.id must be the id of the sign-off.');
  }
  // sent before and kept: the same answer, whatever has changed since
  const kept = await site.store.event(event.id);
  if (kept !== null && kept.broken === null) return enter(viewer, event, ticket, site);

  const publicKey = await findDeviceKey(viewer, event.body.keyId, site);
  if (publicKey === null) {
    return refuseKey();
  }
  const signature = await checkSignoff(event.body, publicKey);
  if (!signature.ok) return refuseSignature(signature.sentence);

  const trainer = await personOf(viewer.org, viewer.person, site);
  if (trainer === null) return refusedFor(403, '', 'desk.not-here');
  const held = holdAgainst(await registerShopOf(viewer.org, site), sheet, event, {
    viewer,
    who: await personOf(viewer.org, sheet.person, site),
    trainer,
    received,
  });
  if (!held.ok) return held;
  if (await isStopped(event.body.statement, site)) {
    return refusedFor(422, 'decision', 'desk.stopped');
  }
  return enter(viewer, event, ticket, site);
}
