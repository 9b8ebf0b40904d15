import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  appendLeaf,
  type Bytes,
  consistencyPath,
  consistencyRanges,
  EMPTY_EDGE,
  edgeNodes,
  edgeRoot,
  emptyRoot,
  fromBase64,
  fromHex,
  inclusionPath,
  inclusionRanges,
  leafHash,
  type NodeLookup,
  nodesOf,
  sameBytes,
  toHex,
  utf8,
  verifyConsistency,
  verifyInclusion,
} from '../../src/records/check/index.ts';
import { vectorJson } from './vector-file.ts';

const hash = (...parts: Uint8Array[]): Bytes => {
  const digest = createHash('sha256');
  for (const part of parts) digest.update(part);
  return new Uint8Array(digest.digest());
};

/** The slow obvious twin: RFC 6962 section 2.1 word for word, on the leaves themselves. */
const twin = {
  split(size: number): number {
    let k = 1;
    while (k * 2 < size) k *= 2;
    return k;
  },
  root(leaves: readonly Uint8Array[]): Bytes {
    if (leaves.length === 0) return hash();
    if (leaves.length === 1) return hash(Uint8Array.of(0), leaves[0] as Uint8Array);
    const k = twin.split(leaves.length);
    return hash(Uint8Array.of(1), twin.root(leaves.slice(0, k)), twin.root(leaves.slice(k)));
  },
  path(m: number, leaves: readonly Uint8Array[]): Bytes[] {
    if (leaves.length === 1) return [];
    const k = twin.split(leaves.length);
    return m < k
      ? [...twin.path(m, leaves.slice(0, k)), twin.root(leaves.slice(k))]
      : [...twin.path(m - k, leaves.slice(k)), twin.root(leaves.slice(0, k))];
  },
  proof(m: number, leaves: readonly Uint8Array[], whole = true): Bytes[] {
    if (m === leaves.length) return whole ? [] : [twin.root(leaves)];
    const k = twin.split(leaves.length);
    return m <= k
      ? [...twin.proof(m, leaves.slice(0, k), whole), twin.root(leaves.slice(k))]
      : [...twin.proof(m - k, leaves.slice(k), false), twin.root(leaves.slice(0, k))];
  },
};

const leavesOf = (count: number): Bytes[] =>
  Array.from({ length: count }, (_, i) => utf8(`leaf ${i}`));

/** Grows a tree leaf by leaf, keeping only what `appendLeaf` says to keep. */
function grow(leaves: readonly Uint8Array[]) {
  const nodes = new Map<string, Bytes>();
  const roots = [edgeRoot(EMPTY_EDGE)];
  let edge = EMPTY_EDGE;
  for (const leaf of leaves) {
    const step = appendLeaf(edge, leafHash(leaf));
    edge = step.edge;
    for (const node of step.made) nodes.set(`${node.level}/${node.index}`, node.hash);
    roots.push(edgeRoot(edge));
  }
  const lookup: NodeLookup = ({ index, level }) => {
    const found = nodes.get(`${level}/${index}`);
    if (found === undefined) throw new Error(`no node ${level}/${index}`);
    return found;
  };
  return { edge, nodes, roots, lookup };
}

const hex = (hashes: readonly Uint8Array[]): string[] => hashes.map(toHex);

describe('the tree of RFC 6962', () => {
  // RFC 6962 leaves and roots as used by the certificate-transparency reference tests
  const leaves = [
    '',
    '00',
    '10',
    '2021',
    '3031',
    '40414243',
    '5051525354555657',
    '606162636465666768696a6b6c6d6e6f',
  ].map((text) => fromHex(text) as Bytes);
  const roots = [
    'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
    'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
    'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
    'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
    '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
    '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
    'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
    '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
  ];

  it('has the published roots from no leaf to eight', () => {
    expect(hex(grow(leaves).roots)).toEqual(roots);
    expect(toHex(emptyRoot())).toBe(roots[0]);
  });

  it('has the published audit paths', () => {
    const { lookup } = grow(leaves);
    // paths of the same reference tests: leaf 5 of 8, and the proof from 6 to 8
    expect(hex(inclusionPath(5, 8, lookup))).toEqual([
      'bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b',
      'ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
    ]);
    expect(hex(consistencyPath(6, 8, lookup))).toEqual([
      '0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a',
      'ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
    ]);
  });
});

type InclusionCase = {
  case: string;
  leafIdx: number;
  treeSize: number;
  root: string;
  leafHash: string;
  proof: string[] | null;
  wantErr: boolean;
};
type ConsistencyCase = {
  case: string;
  size1: number;
  size2: number;
  root1: string;
  root2: string;
  proof: string[] | null;
  wantErr: boolean;
};
const vectors = vectorJson<{ inclusion: InclusionCase[]; consistency: ConsistencyCase[] }>(
  'merkle.json',
);
const bytes = (text: string | null): Bytes => fromBase64(text ?? '') ?? new Uint8Array(0);

// transparency-dev/merkle, testdata (Apache-2.0)
describe('proofs against the transparency-dev vectors', () => {
  it('counts 98 of each', () => {
    expect([vectors.inclusion.length, vectors.consistency.length]).toEqual([98, 98]);
  });

  it.each(vectors.inclusion.map((one) => [one.case, one] as const))('inclusion %s', (_, one) => {
    const holds = verifyInclusion({
      index: one.leafIdx,
      size: one.treeSize,
      leafHash: bytes(one.leafHash),
      path: (one.proof ?? []).map(bytes),
      root: bytes(one.root),
    });
    expect(holds).toBe(!one.wantErr);
  });

  it.each(vectors.consistency.map((one) => [one.case, one] as const))(
    'consistency %s',
    (_, one) => {
      const holds = verifyConsistency({
        first: one.size1,
        second: one.size2,
        firstRoot: bytes(one.root1),
        secondRoot: bytes(one.root2),
        path: (one.proof ?? []).map(bytes),
      });
      expect(holds).toBe(!one.wantErr);
    },
  );
});

describe('the growing tree against its slow twin', () => {
  const size = 70;
  const leaves = leavesOf(size);
  const tree = grow(leaves);

  it('has the twin’s root at every size', () => {
    expect(hex(tree.roots)).toEqual(
      Array.from({ length: size + 1 }, (_, n) => toHex(twin.root(leaves.slice(0, n)))),
    );
  });

  it('has the twin’s audit path for every leaf of every size, and accepts it', () => {
    for (let n = 1; n <= size; n++) {
      for (let index = 0; index < n; index++) {
        const path = inclusionPath(index, n, tree.lookup);
        expect(hex(path)).toEqual(hex(twin.path(index, leaves.slice(0, n))));
        const root = tree.roots[n] as Bytes;
        expect(
          verifyInclusion({
            index,
            size: n,
            leafHash: leafHash(leaves[index] as Bytes),
            path,
            root,
          }),
        ).toBe(true);
      }
    }
  });

  it('has the twin’s consistency proof between all sizes, and accepts it', () => {
    for (let second = 1; second <= size; second++) {
      for (let first = 1; first <= second; first++) {
        const path = consistencyPath(first, second, tree.lookup);
        expect(hex(path)).toEqual(hex(twin.proof(first, leaves.slice(0, second))));
        const claim = {
          first,
          second,
          firstRoot: tree.roots[first] as Bytes,
          secondRoot: tree.roots[second] as Bytes,
          path,
        };
        expect(verifyConsistency(claim)).toBe(true);
      }
    }
  });

  it('keeps at most two nodes a leaf, and an edge as long as the ones in its size', () => {
    expect(tree.nodes.size).toBeLessThan(2 * size);
    expect(tree.edge.hashes.length).toBe(size.toString(2).replaceAll('0', '').length);
  });
});

describe('Merkle proofs on random trees (seed 6962)', () => {
  const sized = fc.integer({ min: 2, max: 40 }).chain((size) =>
    fc.record({
      size: fc.constant(size),
      index: fc.nat(size - 1),
      first: fc.integer({ min: 1, max: size - 1 }),
    }),
  );

  it('a changed leaf, root, step, place or size never verifies', () => {
    fc.assert(
      fc.property(sized, fc.nat(), fc.nat(255), ({ index, size }, where, bit) => {
        const leaves = leavesOf(size);
        const { lookup, roots } = grow(leaves);
        const good = {
          index,
          size,
          leafHash: leafHash(leaves[index] as Bytes),
          path: inclusionPath(index, size, lookup),
          root: roots[size] as Bytes,
        };
        const flip = (hashed: Bytes): Bytes => {
          const copy = hashed.slice();
          copy[bit >> 3] = (copy[bit >> 3] as number) ^ (1 << (bit & 7));
          return copy;
        };
        const step = where % good.path.length;
        expect(verifyInclusion(good)).toBe(true);
        expect(verifyInclusion({ ...good, leafHash: flip(good.leafHash) })).toBe(false);
        expect(verifyInclusion({ ...good, root: flip(good.root) })).toBe(false);
        const bent = good.path.map((one, at) => (at === step ? flip(one) : one));
        expect(verifyInclusion({ ...good, path: bent })).toBe(false);
        expect(verifyInclusion({ ...good, path: good.path.slice(1) })).toBe(false);
        expect(verifyInclusion({ ...good, path: [...good.path, good.root] })).toBe(false);
        const elsewhere = (index + 1) % size;
        expect(verifyInclusion({ ...good, index: elsewhere })).toBe(false);
      }),
      { seed: 6962, numRuns: 200 },
    );
  });

  it('a tree whose past was rewritten never proves itself consistent', () => {
    fc.assert(
      fc.property(sized, fc.nat(), ({ first, size }, which) => {
        const leaves = leavesOf(size);
        const before = grow(leaves.slice(0, first));
        const rewritten = leaves.map((leaf, at) =>
          at === which % first ? utf8('rewritten') : leaf,
        );
        const after = grow(rewritten);
        const claim = {
          first,
          second: size,
          firstRoot: edgeRoot(before.edge),
          secondRoot: edgeRoot(after.edge),
          path: consistencyPath(first, size, after.lookup),
        };
        expect(verifyConsistency(claim)).toBe(false);
      }),
      { seed: 6962, numRuns: 200 },
    );
  });

  it('asks a store for no more than a few dozen nodes of a tree of 2^40 leaves', () => {
    const size = 2 ** 40 + 12_345;
    expect(nodesOf(inclusionRanges(987_654_321, size)).length).toBeLessThan(60);
    expect(nodesOf(consistencyRanges(2 ** 39 + 7, size)).length).toBeLessThan(60);
    expect(edgeNodes(size).reduce((sum, { level }) => sum + 2 ** level, 0)).toBe(size);
  });
});

describe('bounds of a proof', () => {
  it.each([
    [3, 3],
    [-1, 3],
    [0, 0],
    [0.5, 3],
  ])('refuses leaf %d of %d', (index, size) => {
    expect(() => inclusionRanges(index, size)).toThrow(RangeError);
  });

  it('refuses a first size above the second', () => {
    expect(() => consistencyRanges(4, 3)).toThrow('first must be a whole number from 0 to 3.');
  });

  it('compares bytes by value', () => {
    expect(sameBytes(utf8('ab'), utf8('ab'))).toBe(true);
    expect(sameBytes(utf8('ab'), utf8('abc'))).toBe(false);
  });
});
