import {
  BROKEN,
  type Continuation,
  checkGrowth,
  readNoteCheckpoint,
} from '../../../records/check/index.ts';
import { getJson } from '../post-json.ts';
import { openDeviceStore, STRICT } from './device-store.ts';
import { dropNote, keepCheckpoint, readNote, writeNote } from './notes.ts';

/** Heard in a window when a log was found that does not go on, or when a person has dealt with it. */
export const LOG_CHANGED = 'signed-to-saw:log';

const tell = (): void => {
  dispatchEvent(new Event(LOG_CHANGED));
};

const isContinuation = (value: unknown): value is Continuation => {
  if (typeof value !== 'object' || value === null) return false;
  const { checkpoint, path } = value as Partial<Continuation>;
  return (
    typeof checkpoint === 'string' &&
    Array.isArray(path) &&
    path.every((one) => typeof one === 'string')
  );
};

/** The checkpoints the log of today has to go on from: the one kept, and one from a reply not yet held to it. */
async function keptNotes(): Promise<string[]> {
  const kept = await (await openDeviceStore()).getAll('checkpoints');
  const heard = await readNote('heard');
  return [...kept.map(({ note }) => note), ...(heard === undefined ? [] : [heard.note])];
}

/**
 * Asks the site whether its log goes on from every checkpoint kept here, and keeps the newest when it does. When
 * it does not, both are kept, nothing replaces them, and pages say so until a person has dealt with it. A site
 * that is not reached, or answers anything else, decides nothing.
 * @param keep `held`: only where a checkpoint is kept already
 */
export async function followLog(keep: 'begin' | 'held' = 'begin'): Promise<void> {
  if ((await readNote('forked')) !== undefined) return;
  const kept = await keptNotes();
  if (kept.length === 0 && keep === 'held') return;
  const notes = kept.length === 0 ? [null] : kept;
  let newest: string | null = null;
  for (const note of notes) {
    const size = note === null ? 0 : (readNoteCheckpoint(note)?.size ?? 0);
    const reply = await getJson<unknown>(`/api/checkpoints?from=${size}`);
    if (!reply.ok || !isContinuation(reply.value)) return;
    const growth = note === null ? 'goes-on' : checkGrowth(note, reply.value);
    if (note !== null && BROKEN.includes(growth)) {
      const found = reply.value.checkpoint;
      await writeNote({ name: 'forked', kept: note, found, at: new Date().toISOString() });
      tell();
      return;
    }
    if (growth === 'unreadable') return;
    newest = reply.value.checkpoint;
  }
  if (newest === null) return;
  await keepCheckpoint(newest, new Date().toISOString());
  await dropNote('heard');
}

/** Keeps the head a reply came with until the log has been held to it. */
export const hearCheckpoint = (note: string): Promise<void> => writeNote({ name: 'heard', note });

/** The log that did not go on, both heads; null while all is well. */
export const forkedLog = async () => (await readNote('forked')) ?? null;

/** A person has dealt with it: the device begins again with the log of today. */
export async function settleLog(): Promise<void> {
  const db = await openDeviceStore();
  const change = db.transaction(['checkpoints', 'notes'], 'readwrite', STRICT);
  await change.objectStore('checkpoints').clear();
  await change.objectStore('notes').delete('heard');
  await change.objectStore('notes').delete('forked');
  await change.done;
  tell();
}
