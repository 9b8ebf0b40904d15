import type { Site } from '../../accounts/index.ts';
import { openCheckpoint, sameBytes, toBase64, verifyConsistency } from '../../records/index.ts';

/** What a kept checkpoint says of the log of today, worked out from the hashes of the tree. */
export type Compared =
  | {
      readonly state: 'goes-on' | 'same' | 'nothing' | 'rewritten' | 'shorter';
      /** entries in the checkpoint kept */
      readonly kept: number;
      /** entries in the log today */
      readonly size: number;
      /** consistency proof, base 64 */
      readonly path: readonly string[];
    }
  | { readonly state: 'damaged' }
  | {
      readonly state: 'refused';
      readonly why: 'empty' | 'malformed' | 'unknown-signer' | 'bad-signature' | 'another-log';
    };

const refused = (why: Extract<Compared, { state: 'refused' }>['why']): Compared => ({
  state: 'refused',
  why,
});

/** A pasted note ends in one line break, whatever the form or the mail made of it. */
export const asNote = (text: string): string => `${text.replace(/\r\n?/g, '\n').trim()}\n`;

async function readContinuation(from: number, { store }: Site) {
  try {
    return await store.continuation(from);
  } catch (error) {
    if (error instanceof Error && error.name === 'StoreDamaged') return null;
    throw error;
  }
}

/** Whether the log of today goes on, unchanged, from a checkpoint that somebody kept. Never trusts the store. */
export async function compareCheckpoint(text: string, site: Site): Promise<Compared> {
  if (text.trim() === '') return refused('empty');
  const keys = [site.siteKey.publicKey];
  const opened = await openCheckpoint(asNote(text), keys);
  if (!opened.ok) return refused(opened.why);
  const { origin, root, size: kept } = opened.checkpoint;
  const found = await readContinuation(kept, site);
  if (found === null) return { state: 'damaged' };
  const head = await openCheckpoint(found.checkpoint, keys);
  if (!head.ok) return { state: 'damaged' };
  const now = head.checkpoint;
  if (now.origin !== origin) return refused('another-log');
  const { path } = found;
  const answer = { kept, size: now.size, path: path.map(toBase64) };
  if (kept > now.size) return { state: 'shorter', ...answer };
  if (kept === 0) return { state: 'nothing', ...answer };
  if (kept === now.size) {
    return { state: sameBytes(root, now.root) ? 'same' : 'rewritten', ...answer };
  }
  const goesOn = verifyConsistency({
    first: kept,
    second: now.size,
    firstRoot: root,
    secondRoot: now.root,
    path,
  });
  return { state: goesOn ? 'goes-on' : 'rewritten', ...answer };
}
