import { openDeviceStore } from './device-store.ts';
import type { Note } from './kept.ts';

type Named<Name extends Note['name']> = Extract<Note, { readonly name: Name }>;

export async function readNote<Name extends Note['name']>(
  name: Name,
): Promise<Named<Name> | undefined> {
  return (await (await openDeviceStore()).get('notes', name)) as Named<Name> | undefined;
}

export async function writeNote(note: Note): Promise<void> {
  await (await openDeviceStore()).put('notes', note);
}

export async function dropNote(name: Note['name']): Promise<void> {
  await (await openDeviceStore()).delete('notes', name);
}

/** Keeps a copy of the log's newest head: a log rewritten later would no longer fit it. */
export async function keepCheckpoint(note: string, seenAt: string): Promise<void> {
  const origin = note.slice(0, Math.max(0, note.indexOf('\n')));
  await (await openDeviceStore()).put('checkpoints', { origin, note, seenAt });
}
