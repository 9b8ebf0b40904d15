import english from '../../../../content/messages/en/signing.json' with { type: 'json' };
import { sayFrom } from '../../../words/spoken.ts';
import { askSite, postJson, type Reply } from '../post-json.ts';
import { openDeviceStore } from '../store/device-store.ts';
import { followLog, hearCheckpoint } from '../store/follow-log.ts';
import type { Logged, Unsent } from '../store/kept.ts';
import { noteLogged, notePhotoSent, putAside } from '../store/outbox.ts';
import { type Judged, judgeRefusal } from './judge-reply.ts';

const say = sayFrom('signing', english);

export type Delivered =
  | { readonly state: 'gone'; readonly logged: Logged | null }
  | { readonly state: Judged; readonly path: string; readonly message: string };

/** Only the site's own word on this very record lets go of it: a page of some wireless net is none. */
const isLogged = (value: unknown, signoff: string): value is Logged => {
  if (typeof value !== 'object' || value === null) return false;
  const reply = value as Partial<Logged>;
  return (
    reply.signoff === signoff &&
    (reply.state === 'logged' || reply.state === 'repeat') &&
    typeof reply.seq === 'number' &&
    typeof reply.checkpoint === 'string' &&
    typeof reply.received === 'string'
  );
};

const notReached: Delivered = { state: 'later', path: '', message: say('not-reached') };

async function stop(
  entry: Unsent,
  reply: Extract<Reply<unknown>, { ok: false }>,
): Promise<Delivered> {
  const { status, path, message } = reply;
  const state = judgeRefusal(reply);
  if (state === 'refused') {
    await putAside({ status, path, message, at: new Date().toISOString() }, entry);
  }
  return { state, path, message };
}

async function deliverPhoto(entry: Unsent, digest: string): Promise<Delivered | null> {
  const photo = await (await openDeviceStore()).get('photos', digest);
  if (photo === undefined) {
    return stop(entry, { ok: false, status: 410, path: 'photos', message: say('photo.lost') });
  }
  const reply = await askSite<{ readonly digest?: string }>(
    `/api/photos/${digest}?signoff=${entry.signoff}`,
    { method: 'PUT', type: 'image/jpeg', body: photo.bytes },
  );
  if (!reply.ok) return stop(entry, reply);
  if (reply.value?.digest !== digest) return notReached;
  await notePhotoSent(entry, digest);
  return null;
}

/** Takes one signed record to the site: the event first, then its photos, each let go of once acknowledged. */
export async function deliver(entry: Unsent): Promise<Delivered> {
  let { logged } = entry;
  if (logged === null) {
    const { event, sheet } = entry.request;
    const reply = await postJson<unknown>('/api/practicals', {
      event,
      sheet,
      ticket: entry.ticket,
    });
    if (!reply.ok) return stop(entry, reply);
    if (!isLogged(reply.value, entry.signoff)) return notReached;
    logged = reply.value;
    await noteLogged(entry, logged);
    await hearCheckpoint(logged.checkpoint).catch(() => undefined);
    await followLog().catch(() => undefined);
  }
  for (const digest of entry.photos) {
    const stopped = await deliverPhoto(entry, digest);
    if (stopped !== null) return stopped;
  }
  return { state: 'gone', logged };
}
