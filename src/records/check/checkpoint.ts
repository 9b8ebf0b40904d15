import { type Bytes, fromBase64, toBase64 } from './bytes.ts';
import { HASH_LENGTH } from './hash.ts';
import { openNote, signNote } from './signed-note.ts';
import type { Signer } from './signing-key.ts';

/**
 * The state of a log at one size, C2SP tlog-checkpoint: whoever keeps one can later tell whether
 * the log was rewritten.
 */
export type Checkpoint = {
  /** which log: a name with no spaces, the same for ever */
  readonly origin: string;
  /** events in the log */
  readonly size: number;
  /** RFC 6962 root over them */
  readonly root: Bytes;
};

export type OpenedCheckpoint =
  | { readonly ok: true; readonly checkpoint: Checkpoint; readonly publicKey: Bytes }
  | { readonly ok: false; readonly why: 'malformed' | 'unknown-signer' | 'bad-signature' };

/** Name of the log that begins with this key. It stays the log's name when the key is replaced. */
export const logOriginOf = (keyId: string): string => `signed-to-saw/log/${keyId}`;

/** The three lines that are signed. */
export const checkpointText = ({ origin, size, root }: Checkpoint): string =>
  `${origin}\n${size}\n${toBase64(root)}\n`;

/** A checkpoint from its lines, or null. Lines after the third are allowed and mean nothing here. */
export function readCheckpointText(text: string): Checkpoint | null {
  if (!text.endsWith('\n')) return null;
  const lines = text.slice(0, -1).split('\n');
  const [origin = '', sizeText = '', rootText = ''] = lines;
  if (lines.includes('') || !/^(0|[1-9][0-9]{0,15})$/.test(sizeText)) return null;
  const size = Number(sizeText);
  const root = fromBase64(rootText);
  if (!Number.isSafeInteger(size) || root?.length !== HASH_LENGTH) return null;
  return { origin, size, root };
}

/** The checkpoint as a signed note, under the log's own name. */
export const signCheckpoint = (checkpoint: Checkpoint, key: Signer): Promise<string> =>
  signNote(checkpointText(checkpoint), checkpoint.origin, key);

/**
 * A signed checkpoint, if one of these keys signed it. The signer's name must be the log's.
 * Never throws.
 */
export async function openCheckpoint(
  note: string,
  publicKeys: readonly Bytes[],
): Promise<OpenedCheckpoint> {
  const origin = note.slice(0, Math.max(0, note.indexOf('\n')));
  const keys = publicKeys.map((publicKey) => ({ name: origin, publicKey }));
  const opened = await openNote(note, keys);
  if (!opened.ok) return opened;
  const checkpoint = readCheckpointText(opened.text);
  const signer = opened.signers[0];
  if (checkpoint === null || signer === undefined) return { ok: false, why: 'malformed' };
  return { ok: true, checkpoint, publicKey: signer.publicKey };
}
