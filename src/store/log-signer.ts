import {
  type Bytes,
  logOriginOf,
  openCheckpoint,
  type SigningKey,
  signCheckpoint,
} from '../records/index.ts';

/** The head of the log to be signed: how many records it covers and the root over all of them. */
export type LogHead = { readonly size: number; readonly root: Bytes };

/** Signs heads as checkpoints of one log. */
export type LogSigner = { readonly signHead: (head: LogHead) => Promise<string> };

/**
 * A signer that goes on with the log whose newest checkpoint is `note`, or begins a log when it is null.
 * Null when the checkpoint was not signed with this key.
 */
export async function makeLogSigner(
  key: SigningKey,
  note: string | null,
): Promise<LogSigner | null> {
  const opened = note === null ? null : await openCheckpoint(note, [key.publicKey]);
  if (opened !== null && !opened.ok) return null;
  const origin = opened === null ? logOriginOf(key.keyId) : opened.checkpoint.origin;
  return { signHead: ({ size, root }) => signCheckpoint({ origin, size, root }, key) };
}
