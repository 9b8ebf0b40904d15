import { type Bytes, sameBytes } from './bytes.ts';
import { HASH_LENGTH } from './hash.ts';
import { nodeHash } from './merkle-hash.ts';

/*
 * Verification as written out in RFC 9162 sections 2.1.3.2 and 2.1.4.2, which is the tree of
 * RFC 6962 with the steps spelled out. Halving by arithmetic, since a size may pass 2^31.
 */

const half = (value: number): number => Math.floor(value / 2);
const isOdd = (value: number): boolean => value % 2 === 1;
const isCount = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;
const areHashes = (hashes: readonly Uint8Array[]): boolean =>
  hashes.every((hash) => hash.length === HASH_LENGTH);

export type InclusionClaim = {
  /** leaf number, from 0 */
  readonly index: number;
  /** leaves in the tree */
  readonly size: number;
  readonly leafHash: Bytes;
  readonly path: readonly Bytes[];
  readonly root: Bytes;
};

/** Whether the path leads from the leaf to the root. Never throws. */
export function verifyInclusion({ index, size, leafHash, path, root }: InclusionClaim): boolean {
  if (!isCount(index) || !isCount(size) || index >= size) return false;
  if (!areHashes([leafHash, root, ...path])) return false;
  let place = index;
  let last = size - 1;
  let hash = leafHash;
  for (const sibling of path) {
    if (last === 0) return false;
    if (isOdd(place) || place === last) {
      hash = nodeHash(sibling, hash);
      while (!isOdd(place) && place !== 0) {
        place = half(place);
        last = half(last);
      }
    } else {
      hash = nodeHash(hash, sibling);
    }
    place = half(place);
    last = half(last);
  }
  return last === 0 && sameBytes(hash, root);
}

export type ConsistencyClaim = {
  /** leaves in the earlier and in the later tree */
  readonly first: number;
  readonly second: number;
  readonly firstRoot: Bytes;
  readonly secondRoot: Bytes;
  readonly path: readonly Bytes[];
};

/**
 * Whether the later tree begins with the earlier one, unchanged. Never throws. Every tree begins
 * with the empty one, so a first size of 0 shows nothing and is refused.
 */
export function verifyConsistency(claim: ConsistencyClaim): boolean {
  const { first, second, firstRoot, secondRoot, path } = claim;
  if (!isCount(first) || !isCount(second) || first === 0 || first > second) return false;
  if (first === second) return path.length === 0 && sameBytes(firstRoot, secondRoot);
  if (!areHashes([firstRoot, secondRoot, ...path])) return false;
  let place = first - 1;
  let last = second - 1;
  while (isOdd(place)) {
    place = half(place);
    last = half(last);
  }
  // A first size that is a power of two is a whole subtree: its root starts the walk.
  const steps = place === 0 ? [firstRoot, ...path] : [...path];
  const start = steps.shift();
  if (start === undefined || (place === 0 && path.length === 0)) return false;
  let old = start;
  let now = start;
  for (const step of steps) {
    if (last === 0) return false;
    if (isOdd(place) || place === last) {
      old = nodeHash(step, old);
      now = nodeHash(step, now);
      while (!isOdd(place) && place !== 0) {
        place = half(place);
        last = half(last);
      }
    } else {
      now = nodeHash(now, step);
    }
    place = half(place);
    last = half(last);
  }
  return last === 0 && sameBytes(old, firstRoot) && sameBytes(now, secondRoot);
}
