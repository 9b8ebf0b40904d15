import { openDeviceStore, STRICT } from './device-store.ts';
import type { KeptSheet, Logged, RefusedRecord, Unsent } from './kept.ts';
import { markRecords, unmarkRecords } from './marks.ts';
import { tellChanged } from './waiting.ts';

/** A signed record before it is given its place in the order of sending. */
export type Signed = Omit<Unsent, 'order' | 'logged' | 'drafts'>;

/** A photo that a statement names is not on this device. */
export class PhotoMissing extends Error {
  override readonly name = 'PhotoMissing';
}

const STORES = ['outbox', 'refused', 'photos', 'sheets'] as const;

async function openChange() {
  return (await openDeviceStore()).transaction([...STORES], 'readwrite', STRICT);
}
type Change = Awaited<ReturnType<typeof openChange>>;

/** Runs `work` in one transaction: all of it is on the disk, or none of it is. */
async function changeStore<Result>(work: (change: Change) => Promise<Result>): Promise<Result> {
  const change = await openChange();
  try {
    const result = await work(change);
    await change.done;
    return result;
  } catch (error) {
    // what failed may have ended the transaction already
    try {
      change.abort();
    } catch {}
    await change.done.catch(() => undefined);
    throw error;
  }
}

async function holdPhotos(change: Change, { photos, signoff }: Signed): Promise<void> {
  const store = change.objectStore('photos');
  for (const digest of photos) {
    const photo = await store.get(digest);
    if (photo === undefined) throw new PhotoMissing(digest);
    if (photo.heldBy.includes(signoff)) continue;
    await store.put({ ...photo, heldBy: [...photo.heldBy, signoff] });
  }
}

/** A photo goes once nothing that waits needs it. One of a draft alone is held by nothing and stays. */
async function letGoOfPhotos(change: Change, signoff: string, digests: readonly string[]) {
  const store = change.objectStore('photos');
  for (const digest of digests) {
    const photo = await store.get(digest);
    if (photo === undefined) continue;
    const heldBy = photo.heldBy.filter((one) => one !== signoff);
    if (heldBy.length === 0) await store.delete(digest);
    else await store.put({ ...photo, heldBy });
  }
}

/**
 * Keeps signed records and their hold on their photos, and takes away the sheets they came from, in one
 * transaction: after it, either the records are on the disk or the sheets still are.
 * @throws PhotoMissing, or the browser's QuotaExceededError when the device has no room
 */
export async function keepSigned(
  signed: readonly Signed[],
  sheetKeys: readonly string[],
): Promise<Unsent[]> {
  const kept = await changeStore(async (change) => {
    const sheets = change.objectStore('sheets');
    const drafts: KeptSheet[] = [];
    for (const sheetKey of sheetKeys) {
      const draft = await sheets.get(sheetKey);
      if (draft !== undefined) drafts.push(draft);
      await sheets.delete(sheetKey);
    }
    const waiting = await change.objectStore('outbox').getAll();
    let last = Math.max(0, ...waiting.map(({ order }) => order));
    const entries: Unsent[] = [];
    for (const one of signed) {
      last += 1;
      const entry: Unsent = {
        ...one,
        order: last,
        logged: null,
        drafts: entries.length === 0 ? drafts : [],
      };
      await holdPhotos(change, one);
      await change.objectStore('outbox').put(entry);
      entries.push(entry);
    }
    return entries;
  });
  markRecords(kept.map(({ signoff }) => signoff));
  tellChanged();
  return kept;
}

const inOrder = (records: readonly Unsent[]): Unsent[] =>
  [...records].sort((a, b) => a.order - b.order);

/** Everything that waits on this device, the oldest first. */
export const allUnsent = async (): Promise<Unsent[]> =>
  inOrder(await (await openDeviceStore()).getAll('outbox'));

/** What this person signed here and the site has not confirmed yet, the oldest first. */
export const unsentOf = async (person: string): Promise<Unsent[]> =>
  (await allUnsent()).filter(({ trainer }) => trainer === person);

/** The site has this record in its log. It stays here only while photos of it are still to follow. */
export async function noteLogged({ signoff }: Unsent, logged: Logged): Promise<Unsent | null> {
  const entry = await (await openDeviceStore()).get('outbox', signoff);
  if (entry === undefined) return null;
  if (entry.photos.length === 0) unmarkRecords([signoff]);
  const left = await changeStore(async (change) => {
    const outbox = change.objectStore('outbox');
    const now = await outbox.get(signoff);
    if (now === undefined) return null;
    if (now.photos.length > 0) {
      const next: Unsent = { ...now, logged, ticket: null };
      await outbox.put(next);
      return next;
    }
    await outbox.delete(signoff);
    return null;
  });
  tellChanged();
  return left;
}

/** The site has this photo. With the last one the record leaves this device. */
export async function notePhotoSent({ signoff }: Unsent, digest: string): Promise<void> {
  const entry = await (await openDeviceStore()).get('outbox', signoff);
  if (entry?.photos.every((one) => one === digest)) unmarkRecords([signoff]);
  await changeStore(async (change) => {
    const outbox = change.objectStore('outbox');
    const now = await outbox.get(signoff);
    if (now === undefined) return;
    await letGoOfPhotos(change, signoff, [digest]);
    const photos = now.photos.filter((one) => one !== digest);
    if (photos.length === 0 && now.logged !== null) await outbox.delete(signoff);
    else await outbox.put({ ...now, photos });
  });
  tellChanged();
}

/** The site would not take this record: it is put aside with the reason, and never thrown away by itself. */
export async function putAside(
  refused: Omit<RefusedRecord, 'signoff' | 'record'>,
  { signoff }: Unsent,
) {
  await changeStore(async (change) => {
    const record = await change.objectStore('outbox').get(signoff);
    if (record === undefined) return;
    await change.objectStore('refused').put({ ...refused, signoff, record });
    await change.objectStore('outbox').delete(signoff);
  });
  tellChanged();
}

/** Replaces the one-time tickets of records that wait for one. */
export async function renewTickets(tickets: ReadonlyMap<string, string>): Promise<void> {
  await changeStore(async (change) => {
    const outbox = change.objectStore('outbox');
    for (const [signoff, ticket] of tickets) {
      const now = await outbox.get(signoff);
      if (now !== undefined) await outbox.put({ ...now, ticket });
    }
  });
}

/** What of this person the site would not take, the oldest first. */
export async function refusedOf(person: string): Promise<RefusedRecord[]> {
  const all = await (await openDeviceStore()).getAll('refused');
  return all
    .filter(({ record }) => record.trainer === person)
    .sort((a, b) => a.record.order - b.record.order);
}

/** Puts a refused record back on its way: the reason may have gone. */
export async function tryAgain(signoff: string): Promise<void> {
  await changeStore(async (change) => {
    const found = await change.objectStore('refused').get(signoff);
    if (found === undefined) return;
    await change.objectStore('outbox').put(found.record);
    await change.objectStore('refused').delete(signoff);
  });
  tellChanged();
}

/**
 * Puts the sheets a refused record came from back among those being filled in, to mend and sign afresh.
 * The record itself stays where it is. A sheet begun anew in the meantime is left alone.
 */
export async function reopenSheets(signoff: string): Promise<readonly KeptSheet[]> {
  return changeStore(async (change) => {
    const found = await change.objectStore('refused').get(signoff);
    const sheets = change.objectStore('sheets');
    for (const draft of found?.record.drafts ?? []) {
      if ((await sheets.get(draft.sheetKey)) === undefined) await sheets.put(draft);
    }
    return found?.record.drafts ?? [];
  });
}

/** Throws a refused record away: only ever because its trainer said so. */
export async function dropRefused(signoff: string): Promise<void> {
  unmarkRecords([signoff]);
  await changeStore(async (change) => {
    const found = await change.objectStore('refused').get(signoff);
    if (found === undefined) return;
    await letGoOfPhotos(change, signoff, found.record.photos);
    await change.objectStore('refused').delete(signoff);
  });
  tellChanged();
}
