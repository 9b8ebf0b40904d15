import type { Bytes } from './bytes.ts';
import { edgeNodes, type NodeRef } from './merkle-edge.ts';
import { emptyRoot, nodeHash, splitPoint } from './merkle-hash.ts';

/** Leaves `from` up to but not including `to`. */
export type LeafRange = { readonly from: number; readonly to: number };

/** Looks up the hash of a whole subtree. A store fetches them first and answers from what it got. */
export type NodeLookup = (node: NodeRef) => Bytes;

function requireWhole(name: string, value: number, min: number, max: number): void {
  if (!Number.isSafeInteger(value) || value < min || value > max) {
    throw new RangeError(`${name} must be a whole number from ${min} to ${max}.`);
  }
}

/**
 * Ranges whose roots are the audit path of one leaf, nearest the leaf first: PATH(m, D[n]) of
 * RFC 6962 section 2.1.1.
 * @throws RangeError unless 0 <= index < size
 */
export function inclusionRanges(index: number, size: number): LeafRange[] {
  requireWhole('size', size, 1, Number.MAX_SAFE_INTEGER);
  requireWhole('index', index, 0, size - 1);
  const ranges: LeafRange[] = [];
  let from = 0;
  let to = size;
  while (to - from > 1) {
    const middle = from + splitPoint(to - from);
    if (index < middle) {
      ranges.push({ from: middle, to });
      to = middle;
    } else {
      ranges.push({ from, to: middle });
      from = middle;
    }
  }
  return ranges.reverse();
}

/**
 * Ranges whose roots prove that the tree of `first` leaves is the beginning of the tree of
 * `second`: PROOF(m, D[n]) of RFC 6962 section 2.1.2. Empty when first is 0 or equals second.
 * @throws RangeError unless 0 <= first <= second
 */
export function consistencyRanges(first: number, second: number): LeafRange[] {
  requireWhole('second', second, 0, Number.MAX_SAFE_INTEGER);
  requireWhole('first', first, 0, second);
  if (first === 0 || first === second) return [];
  const ranges: LeafRange[] = [];
  let from = 0;
  let to = second;
  // While the old tree's edge is not itself a subtree boundary, step toward it.
  while (to !== first) {
    const middle = from + splitPoint(to - from);
    if (first <= middle) {
      ranges.push({ from: middle, to });
      to = middle;
    } else {
      ranges.push({ from, to: middle });
      from = middle;
    }
  }
  // The old root itself is known to the verifier when it stands whole at the left.
  if (from !== 0) ranges.push({ from, to });
  return ranges.reverse();
}

/** Whole subtrees that make up a range of either kind above, largest first. */
function coverRange({ from, to }: LeafRange): NodeRef[] {
  return edgeNodes(to - from).map(({ level, index }) => ({
    level,
    index: index + from / 2 ** level,
  }));
}

/** Every node a store must fetch to answer for these ranges. */
export const nodesOf = (ranges: readonly LeafRange[]): NodeRef[] => ranges.flatMap(coverRange);

/** Root over a range, from the hashes of the whole subtrees in it. */
export function hashRange(range: LeafRange, lookup: NodeLookup): Bytes {
  const hashes = coverRange(range).map(lookup);
  const last = hashes.pop();
  return last === undefined
    ? emptyRoot()
    : hashes.reduceRight((right, left) => nodeHash(left, right), last);
}

/** The audit path of a leaf in the tree of `size` leaves. */
export const inclusionPath = (index: number, size: number, lookup: NodeLookup): Bytes[] =>
  inclusionRanges(index, size).map((range) => hashRange(range, lookup));

/** The proof that the tree of `first` leaves begins the tree of `second`. */
export const consistencyPath = (first: number, second: number, lookup: NodeLookup): Bytes[] =>
  consistencyRanges(first, second).map((range) => hashRange(range, lookup));
