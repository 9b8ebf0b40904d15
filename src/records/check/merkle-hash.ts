import type { Bytes } from './bytes.ts';
import { HASH_LENGTH, sha256 } from './hash.ts';

/*
 * The hashes of RFC 6962 section 2.1. A leaf is prefixed 0x00 and an inner node 0x01, so that no
 * leaf can be passed off as a node.
 */

/** Root of the tree with no leaves: the hash of nothing. */
export const emptyRoot = (): Bytes => sha256(new Uint8Array(0));

export function leafHash(leaf: Uint8Array): Bytes {
  const input = new Uint8Array(leaf.length + 1);
  input.set(leaf, 1);
  return sha256(input);
}

export function nodeHash(left: Uint8Array, right: Uint8Array): Bytes {
  const input = new Uint8Array(1 + 2 * HASH_LENGTH);
  input[0] = 1;
  input.set(left, 1);
  input.set(right, 1 + HASH_LENGTH);
  return sha256(input);
}

/** Greatest power of two strictly below `size`: where RFC 6962 splits a tree. `size` from 2. */
export function splitPoint(size: number): number {
  let split = 1;
  while (split * 2 < size) split *= 2;
  return split;
}
