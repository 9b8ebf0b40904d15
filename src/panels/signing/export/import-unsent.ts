import english from '../../../../content/messages/en/signing.json' with { type: 'json' };
import { ShapeError } from '../../../records/check/index.ts';
import { sayFrom } from '../../../words/spoken.ts';
import { statementHashOf } from '../enrolment-hash.ts';
import { sayNotKept } from '../kit.ts';
import type { Reply } from '../post-json.ts';
import { openDeviceStore, STRICT } from '../store/device-store.ts';
import { keepSigned, type Signed } from '../store/outbox.ts';
import { type ReadFile, readUnsentFile, type UnsentRecord } from './unsent-file.ts';

const say = sayFrom('signing', english);
const LARGEST_FILE = 200_000_000;

const refuse = (message: string): Reply<number> => ({
  ok: false,
  status: 0,
  path: 'file',
  message,
});

const asSigned = ({ event, sheet, title, path, signedAt, photos }: UnsentRecord): Signed => ({
  signoff: event.id,
  sheetKey: '',
  title,
  path,
  trainer: event.by,
  signedAt,
  request: { event, sheet },
  statementHash: statementHashOf((event.body as { readonly statement: unknown }).statement),
  ticket: null,
  photos,
});

async function keepPhotos({ photos }: ReadFile): Promise<void> {
  const change = (await openDeviceStore()).transaction('photos', 'readwrite', STRICT);
  const keptAt = new Date().toISOString();
  for (const [digest, bytes] of photos) {
    if ((await change.store.get(digest)) !== undefined) continue;
    await change.store.put({ digest, bytes: bytes.slice().buffer, keptAt, heldBy: [] });
  }
  await change.done;
}

/**
 * Brings in a file of signed records from another device, to be sent from here. Doing it twice, or on two
 * devices, does no harm: the site takes each record once.
 * @returns how many were brought in
 */
export async function importUnsent(file: Blob): Promise<Reply<number>> {
  if (file.size > LARGEST_FILE)
    return refuse(say('file.large', { most: LARGEST_FILE / 1_000_000 }));
  let read: ReadFile;
  try {
    read = await readUnsentFile(JSON.parse(await file.text()));
  } catch (error) {
    if (error instanceof ShapeError) return refuse(say('file.wrong', { problem: error.message }));
    return refuse(say('file.unread'));
  }
  try {
    const db = await openDeviceStore();
    const here = new Set([...(await db.getAllKeys('outbox')), ...(await db.getAllKeys('refused'))]);
    const fresh = read.records.filter(({ event }) => !here.has(event.id));
    await keepPhotos(read);
    await keepSigned(fresh.map(asSigned), []);
    return { ok: true, value: fresh.length };
  } catch (error) {
    return refuse(sayNotKept(error));
  }
}
