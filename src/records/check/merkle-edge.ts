import type { Bytes } from './bytes.ts';
import { emptyRoot, nodeHash } from './merkle-hash.ts';

/** A whole subtree: the leaves from `index * 2^level`, `2^level` of them. Level 0 is a leaf. */
export type NodeRef = { readonly level: number; readonly index: number };
export type TreeNode = NodeRef & { readonly hash: Bytes };

/**
 * The right edge of a tree: the roots of its whole subtrees, largest first. With the size it is all
 * that is needed to go on appending and to know the root: at most 53 hashes.
 */
export type TreeEdge = { readonly size: number; readonly hashes: readonly Bytes[] };

export const EMPTY_EDGE: TreeEdge = { size: 0, hashes: [] };

/**
 * The edge after one more leaf, and the whole subtrees that leaf completed (itself first). Keep
 * those nodes for ever: none of them changes again. O(log n), on average two hashes.
 */
export function appendLeaf(edge: TreeEdge, leaf: Bytes): { edge: TreeEdge; made: TreeNode[] } {
  const hashes = [...edge.hashes];
  const made: TreeNode[] = [{ level: 0, index: edge.size, hash: leaf }];
  let hash = leaf;
  let level = 0;
  let index = edge.size;
  while (index % 2 === 1) {
    const left = hashes.pop() as Bytes;
    hash = nodeHash(left, hash);
    level += 1;
    index = (index - 1) / 2;
    made.push({ level, index, hash });
  }
  hashes.push(hash);
  return { edge: { size: edge.size + 1, hashes }, made };
}

/** Root of the tree that ends at this edge, RFC 6962 section 2.1. */
export function edgeRoot(edge: TreeEdge): Bytes {
  const last = edge.hashes.at(-1);
  if (last === undefined) return emptyRoot();
  return edge.hashes.slice(0, -1).reduceRight((right, left) => nodeHash(left, right), last);
}

/** Whole subtrees, largest first, whose roots make up the edge of a tree of `size` leaves. */
export function edgeNodes(size: number): NodeRef[] {
  const nodes: NodeRef[] = [];
  let from = 0;
  for (let level = 52; level >= 0; level--) {
    const width = 2 ** level;
    if (size - from < width) continue;
    nodes.push({ level, index: from / width });
    from += width;
  }
  return nodes;
}
