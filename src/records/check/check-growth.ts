import { type Bytes, fromBase64, sameBytes } from './bytes.ts';
import { type Checkpoint, readCheckpointText } from './checkpoint.ts';
import { verifyConsistency } from './merkle-verify.ts';

/** How a log of today stands to a checkpoint kept from an earlier day. */
export type Growth = 'goes-on' | 'same' | 'rewritten' | 'shorter' | 'another-log' | 'unreadable';

/** What a log says of itself today: its signed head, and the proof from an earlier size, base 64. */
export type Continuation = { readonly checkpoint: string; readonly path: readonly string[] };

/** Growths that show that the log was changed, and not only that nothing could be read. */
export const BROKEN: readonly Growth[] = ['rewritten', 'shorter', 'another-log'];

/** The three lines of a signed note, or null. Its signature is not looked at. */
export function readNoteCheckpoint(note: string): Checkpoint | null {
  const end = note.indexOf('\n\n');
  return end < 0 ? null : readCheckpointText(note.slice(0, end + 1));
}

/**
 * Whether the log goes on, unchanged, from a kept checkpoint (RFC 9162, 2.1.4.2). It trusts neither head: what
 * it finds rests on the roots alone, so no key is needed. Never throws.
 * @param kept signed note
 */
export function checkGrowth(kept: string, { checkpoint, path }: Continuation): Growth {
  const before = readNoteCheckpoint(kept);
  const now = readNoteCheckpoint(checkpoint);
  if (before === null || now === null) return 'unreadable';
  if (before.origin !== now.origin) return 'another-log';
  if (now.size < before.size) return 'shorter';
  if (now.size === before.size) return sameBytes(before.root, now.root) ? 'same' : 'rewritten';
  // every log begins with the empty one
  if (before.size === 0) return 'goes-on';
  const hashes: Bytes[] = [];
  for (const text of path) {
    const hash = fromBase64(text);
    if (hash === null) return 'rewritten';
    hashes.push(hash);
  }
  const goesOn = verifyConsistency({
    first: before.size,
    second: now.size,
    firstRoot: before.root,
    secondRoot: now.root,
    path: hashes,
  });
  return goesOn ? 'goes-on' : 'rewritten';
}
