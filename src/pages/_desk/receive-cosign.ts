import { z } from 'zod';
import { appendSigned, can, personOf, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { statementHashOf } from '../../panels/signing/index.ts';
import { type Cosign, checkCosign, type EventOf, readEventDraft } from '../../records/index.ts';
import { isEventRefused, isIdConflict, type StoreWrite } from '../../store/index.ts';
import { eventsAt } from './append-once.ts';
import { findDeviceKey, isKeyEnded } from './find-device-key.ts';
import { findSigned } from './find-signed.ts';
import { refuseKey, refuseSignature } from './refuse-key.ts';
import { type Done, type Refused, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const must = 'must be the ticket of a fresh sign-in';
const RequestSchema = z.strictObject(
  {
    event: z.record(z.string(), z.unknown(), { error: 'must be the signed event' }),
    ticket: z.string({ error: must }).min(1, { error: must }).max(200, { error: must }),
  },
  { error: 'must hold event and ticket, and nothing else' },
);

export type CosignLogged = { readonly id: string; readonly seq: number; readonly received: string };

type Signed = EventOf<'practical.signed'> & { readonly about: string };
type CosignDraft = Omit<EventOf<'practical.cosigned'>, 'received'>;

/** The first field in which the word is not about the record as the log has it. */
function findStranger(cosign: Cosign, signed: Signed, nameHash: string): Refused | null {
  const { statement } = signed.body;
  if (cosign.signoff !== signed.id) return refusedFor(422, 'signoff', 'desk.cosign.record');
  if (cosign.statementHash !== statementHashOf(statement)) {
    return refusedFor(422, 'statementHash', 'desk.cosign.hash');
  }
  if (cosign.unit !== statement.unit.title) return refusedFor(422, 'unit', 'desk.cosign.unit');
  return cosign.trainer.nameHash === nameHash
    ? null
    : refusedFor(422, 'trainer.nameHash', 'desk.cosign.name');
}

/** What of the log speaks against a word by this trainer, as a transaction sees it. */
async function findAgainst(
  write: StoreWrite,
  draft: CosignDraft,
  about: string,
): Promise<'withdrawn' | 'twice' | 'key' | null> {
  const { org, by, body } = draft;
  const { signoff } = body.statement;
  const said = await eventsAt(write, {
    org,
    about,
    kinds: ['practical.cosigned', 'practical.withdrawn'],
  });
  for (const one of said) {
    if (one.kind === 'practical.withdrawn' && one.body.signoff === signoff) return 'withdrawn';
    if (one.kind === 'practical.cosigned' && one.by === by) {
      if (one.body.statement.signoff === signoff) return 'twice';
    }
  }
  return (await isKeyEnded(write, { org, person: by }, body.keyId)) ? 'key' : null;
}

const AGAINST = {
  withdrawn: () => refusedFor(409, 'signoff', 'desk.cosign.withdrawn'),
  twice: () => refusedFor(409, 'signoff', 'desk.cosign.twice'),
  key: refuseKey,
};

async function enter(
  viewer: Viewer,
  draft: CosignDraft,
  ticket: string,
  about: string,
  site: Site,
): Promise<Done<CosignLogged>> {
  let against: keyof typeof AGAINST | null = null;
  const holds = async (write: StoreWrite) => {
    against = await findAgainst(write, draft, about);
    return against === null;
  };
  const statementHash = statementHashOf(draft.body.statement);
  try {
    const entered = await appendSigned(viewer, draft, { ticket, statementHash, holds }, site);
    if (!entered.ok) {
      const why = against as keyof typeof AGAINST | null;
      return why === null ? { ok: false, ...entered.refusal } : AGAINST[why]();
    }
    const { event, seq } = entered.value;
    return { ok: true, value: { id: event.id, seq, received: event.received } };
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    if (isEventRefused(error)) return refused(422, error.problem.path, error.problem.message);
    throw error;
  }
}

/**
 * Takes in a second trainer's word on a signed practical: not from who signed it and not from who was
 * watched, signed by the trainer's own enrolled key after a fresh sign-in, about the very statement that
 * stands in the log, and once.
 */
export async function receiveCosign(
  viewer: Viewer | null,
  signoff: string,
  input: unknown,
  site: Site,
): Promise<Done<CosignLogged>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (viewer.role !== 'trainer') return refusedFor(403, '', whyNotWrite(viewer));
  const found = await findSigned(viewer, signoff, site);
  if (!found.ok) return found;
  const signed = found.value;
  if (!can(viewer, 'practical.cosign', { org: viewer.org, person: signed.about })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  if (signed.by === viewer.person) return refusedFor(403, '', 'desk.cosign.signer');
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The request');
    return refused(400, path, message);
  }
  const drafted = readEventDraft(read.data.event);
  if (!drafted.ok) return refused(422, drafted.error.path, drafted.error.message);
  const draft = drafted.event;
  if (draft.kind !== 'practical.cosigned') {
    return refused(422, 'event.kind', 'event.kind must be practical.cosigned.');
  }
  if (draft.org !== viewer.org || draft.by !== viewer.person) {
    return refused(403, 'event.by', 'event.by must be the person who is signed in.');
  }
  if (draft.about !== signed.about) return refusedFor(422, 'about', 'desk.cosign.record');
  if (Date.parse(draft.at) > Date.now() + 86_400_000) {
    return refusedFor(422, 'at', 'desk.clock-ahead');
  }
  const self = await personOf(viewer.org, viewer.person, site);
  if (self === null) return refusedFor(403, '', 'desk.not-here');
  const stranger = findStranger(draft.body.statement, signed, self.nameHash);
  if (stranger !== null) return stranger;
  // sent before and kept: the same answer, even when the key has been ended since
  const kept = await site.store.event(draft.id);
  if (kept === null || kept.broken !== null) {
    const publicKey = await findDeviceKey(viewer, draft.body.keyId, site);
    if (publicKey === null) return refuseKey();
    const signature = await checkCosign(draft.body, publicKey);
    if (!signature.ok) return refuseSignature(signature.sentence);
  }
  return enter(viewer, draft, read.data.ticket, signed.about, site);
}
