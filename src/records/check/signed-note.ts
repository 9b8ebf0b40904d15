import { type Bytes, fromBase64, joinBytes, sameBytes, toBase64, utf8 } from './bytes.ts';
import { sha256 } from './hash.ts';
import { type Signer, signBytes, verifySignature } from './signing-key.ts';

/*
 * Notes signed with Ed25519, C2SP signed-note version 1.0.0: a text, a blank line, and lines of an
 * em dash, the signer's name, and the base 64 of a 4-byte key hash and the signature.
 */

/** Whose signature counts: the name the signer goes by, and the public key. */
export type NoteKey = { readonly name: string; readonly publicKey: Bytes };

export type OpenedNote =
  | { readonly ok: true; readonly text: string; readonly signers: readonly NoteKey[] }
  | { readonly ok: false; readonly why: 'malformed' | 'unknown-signer' | 'bad-signature' };

/** Signature type byte of Ed25519. */
const ED25519 = 1;
const KEY_HASH_LENGTH = 4;
/** More lines than any log here has witnesses; the standard asks for at least 16. */
const MAX_SIGNATURES = 64;
const MAX_LENGTH = 65_536;

/** Not empty, no plus sign, no space in any script. */
const NAME = /^[^\s\u0085+]+$/u;
const SIGNATURE_LINE = /^— ([^\s\u0085+]+) ([A-Za-z0-9+/]+={0,2})$/u;

/** Whether the text has a control character other than a new line. */
const hasControl = (text: string): boolean =>
  [...text].some((char) => char < ' ' && char !== '\n') || !text.isWellFormed();

/** The first four bytes of SHA-256 over name, new line, signature type and public key. */
export const noteKeyHash = ({ name, publicKey }: NoteKey): Bytes =>
  sha256(joinBytes(utf8(`${name}\n`), new Uint8Array([ED25519]), publicKey)).slice(
    0,
    KEY_HASH_LENGTH,
  );

/**
 * The text with one signature line.
 * @param text ends in a new line
 * @throws RangeError when the text or the name could not be read back as it was
 */
export async function signNote(text: string, name: string, key: Signer): Promise<string> {
  if (!text.endsWith('\n') || hasControl(text)) {
    throw new RangeError(
      'The text of a note must end in a new line and hold no control characters.',
    );
  }
  if (!NAME.test(name))
    throw new RangeError('The name on a note must have no spaces and no plus sign.');
  const signature = await signBytes(key, utf8(text));
  const line = toBase64(joinBytes(noteKeyHash({ name, publicKey: key.publicKey }), signature));
  return `${text}\n— ${name} ${line}\n`;
}

type SignatureLine = { readonly name: string; readonly keyHash: Bytes; readonly signature: Bytes };

function splitNote(note: string): { text: string; lines: SignatureLine[] } | null {
  if (note.length > MAX_LENGTH || hasControl(note) || !note.endsWith('\n')) return null;
  const blank = note.lastIndexOf('\n\n');
  if (blank === -1) return null;
  const rows = note.slice(blank + 2, -1).split('\n');
  if (rows.length > MAX_SIGNATURES) return null;
  const lines: SignatureLine[] = [];
  for (const row of rows) {
    const [, name, encoded] = SIGNATURE_LINE.exec(row) ?? [];
    const bytes = encoded === undefined ? null : fromBase64(encoded);
    if (name === undefined || bytes === null || bytes.length <= KEY_HASH_LENGTH) return null;
    lines.push({
      name,
      keyHash: bytes.slice(0, KEY_HASH_LENGTH),
      signature: bytes.slice(KEY_HASH_LENGTH),
    });
  }
  return { text: note.slice(0, blank + 1), lines };
}

/**
 * The text of a note, if one of the known keys signed it. Lines of unknown signers are passed over,
 * as witnesses may add theirs; a bad signature of a known key spoils the note. Never throws.
 */
export async function openNote(note: string, keys: readonly NoteKey[]): Promise<OpenedNote> {
  const split = splitNote(note);
  if (split === null) return { ok: false, why: 'malformed' };
  const signers: NoteKey[] = [];
  for (const line of split.lines) {
    const key = keys.find(
      (one) => one.name === line.name && sameBytes(noteKeyHash(one), line.keyHash),
    );
    if (key === undefined) continue;
    if (!(await verifySignature(key.publicKey, utf8(split.text), line.signature))) {
      return { ok: false, why: 'bad-signature' };
    }
    signers.push(key);
  }
  return signers.length === 0
    ? { ok: false, why: 'unknown-signer' }
    : { ok: true, text: split.text, signers };
}
