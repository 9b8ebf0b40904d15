import { describe, expect, it } from 'vitest';
import {
  appendLeaf,
  BROKEN,
  type Bytes,
  checkGrowth,
  consistencyPath,
  EMPTY_EDGE,
  edgeRoot,
  leafHash,
  logOriginOf,
  signCheckpoint,
  toBase64,
  utf8,
} from '../../src/records/check/index.ts';
import { seedKey } from '../records/sample-log.ts';

const key = await seedKey(1);

/** A signed log of so many leaves, with the proofs from every earlier size. */
async function grow(leaves: readonly string[], origin = logOriginOf(key.keyId)) {
  const nodes = new Map<string, Bytes>();
  let edge = EMPTY_EDGE;
  for (const leaf of leaves) {
    const step = appendLeaf(edge, leafHash(utf8(leaf)));
    edge = step.edge;
    for (const { hash, index, level } of step.made) nodes.set(`${level}/${index}`, hash);
  }
  const size = leaves.length;
  const checkpoint = await signCheckpoint({ origin, size, root: edgeRoot(edge) }, key);
  const from = (first: number) => ({
    checkpoint,
    path:
      first === 0 || first >= size
        ? []
        : consistencyPath(
            first,
            size,
            ({ index, level }) => nodes.get(`${level}/${index}`) as Bytes,
          ).map(toBase64),
  });
  return { checkpoint, from };
}

const named = (count: number, fork = -1) =>
  Array.from({ length: count }, (_, at) => (at === fork ? `other ${at}` : `entry ${at}`));

describe('the log of today beside a checkpoint kept on a device', () => {
  it('goes on from every size it had, 1 to 40', async () => {
    const now = await grow(named(40));
    for (let first = 1; first < 40; first++) {
      const kept = (await grow(named(first))).checkpoint;
      expect(checkGrowth(kept, now.from(first))).toBe('goes-on');
    }
    expect(checkGrowth(now.checkpoint, now.from(40))).toBe('same');
    expect(checkGrowth((await grow([])).checkpoint, now.from(0))).toBe('goes-on');
  });

  it('is rewritten when any entry below the kept size is another one, with the best proof it has', async () => {
    const kept = (await grow(named(21))).checkpoint;
    for (let fork = 0; fork < 21; fork++) {
      const now = await grow(named(40, fork));
      expect(checkGrowth(kept, now.from(21))).toBe('rewritten');
      expect(checkGrowth(kept, (await grow(named(21, fork))).from(21))).toBe('rewritten');
    }
    expect(checkGrowth(kept, (await grow(named(40, 21))).from(21))).toBe('goes-on');
  });

  it('is rewritten for a device when its proof is cut, empty or no base 64', async () => {
    const kept = (await grow(named(21))).checkpoint;
    const { checkpoint, path } = (await grow(named(40))).from(21);
    for (const bent of [[], path.slice(1), path.slice(0, -1), ['?', ...path.slice(1)]]) {
      expect(checkGrowth(kept, { checkpoint, path: bent })).toBe('rewritten');
    }
  });

  it('is shorter when entries are gone, and another log under another name', async () => {
    const kept = (await grow(named(21))).checkpoint;
    expect(checkGrowth(kept, (await grow(named(20))).from(21))).toBe('shorter');
    expect(checkGrowth(kept, (await grow(named(40), 'another/log')).from(21))).toBe('another-log');
  });

  it('is not called changed by a page that is no checkpoint', async () => {
    const kept = (await grow(named(21))).checkpoint;
    const growth = checkGrowth(kept, { checkpoint: '<html>Sign in to the wireless net', path: [] });
    expect(growth).toBe('unreadable');
    expect(BROKEN).not.toContain(growth);
  });
});
