import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type DraftOf, leafHash, toHex, utf8 } from '../../src/records/index.ts';
import { storedLeafHash } from '../../src/store/stored-event.ts';
import { draftInvitation, makeStoreHere, ORG, SLOW, type TempStore } from './temp-store.ts';

/** Any kind will do that has somebody it is about. */
const returned = (bench: string, by: string, done = 'Mended.'): DraftOf<'bench.returned'> => ({
  ...draftInvitation({ about: bench, by }),
  kind: 'bench.returned',
  body: { bench, done },
});

let temp: TempStore;
beforeAll(async () => {
  temp = await makeStoreHere();
  await temp.store.write(async ({ append }) => {
    for (let one = 0; one < 30; one++) await append(returned(`p${one % 10}`, `t${one % 3}`));
    await append({ ...returned('p1', 't1'), org: 'other' });
    await append(returned('b1', 't9', 'New guard.'));
  });
}, SLOW);
afterAll(() => temp.remove());

const seqs = async (filter: object) =>
  (await temp.store.events({ org: ORG, ...filter })).map(({ seq }) => seq);

describe('events looked for', () => {
  it('are about any of several people, and by any of several, in the order of the log', async () => {
    expect(await seqs({ abouts: ['p3', 'p1', 'p1'] })).toEqual([1, 3, 11, 13, 21, 23]);
    expect(await seqs({ bys: ['t0'], abouts: ['p3', 'p1'] })).toEqual([3, 21]);
    expect(await seqs({ abouts: [] })).toEqual([]);
    expect(await seqs({ bys: [] })).toEqual([]);
  });

  it('stay in order and in number when more are named than one query takes', async () => {
    const strangers = Array.from({ length: 1200 }, (_, one) => `nobody-${one}`);
    const abouts = ['p9', ...strangers.slice(0, 700), 'p1', ...strangers.slice(700), 'p0'];
    expect(await seqs({ abouts })).toEqual([0, 1, 9, 10, 11, 19, 20, 21, 29]);
    expect(await seqs({ abouts, limit: 2 })).toEqual([0, 1]);
    expect(await seqs({ abouts, after: 11 })).toEqual([19, 20, 21, 29]);
  });

  it('go on after a place in the log, some at a time', async () => {
    expect(await seqs({ limit: 3 })).toEqual([0, 1, 2]);
    expect(await seqs({ after: 27, kinds: ['bench.returned'] })).toEqual([28, 29, 31]);
    expect(await seqs({ kinds: [] })).toEqual([]);
  });

  it('are the last ones when asked, still in the order of the log', async () => {
    expect(await seqs({ last: 3 })).toEqual([28, 29, 31]);
    expect(await seqs({ last: 2, abouts: ['p1'] })).toEqual([11, 21]);
    expect(await seqs({ last: 100, abouts: ['p1'] })).toEqual([1, 11, 21]);
    const strangers = Array.from({ length: 700 }, (_, one) => `nobody-${one}`);
    expect(await seqs({ last: 2, abouts: ['p1', ...strangers, 'p2'] })).toEqual([21, 22]);
    expect(await seqs({ last: 5, abouts: ['p1', ...strangers] })).toEqual([1, 11, 21]);
  });

  it('hold some text, of the kinds named and of no other organisation', async () => {
    expect(await seqs({ containing: '"done":"New guard."' })).toEqual([31]);
    expect(await seqs({ containing: '"done":"Mended."', abouts: ['p1'] })).toEqual([1, 11, 21]);
  });
});

describe('a few events of several kinds', () => {
  const kinds = ['bench.taken-out', 'bench.returned'];
  beforeAll(async () => {
    for (const bench of ['p1', 'p2']) {
      const { about, ...draft } = draftInvitation({ about: bench, by: 't1' });
      const body = { bench, reason: 'Cracked.' };
      await temp.store.append({ ...draft, about, kind: 'bench.taken-out', body } as never);
      await temp.store.append(returned(bench, 't1'));
    }
  });

  it('are the first or the last of all of them together, in the order of the log', async () => {
    expect(await seqs({ kinds, last: 3 })).toEqual([33, 34, 35]);
    expect(await seqs({ kinds, last: 5 })).toEqual([31, 32, 33, 34, 35]);
    expect(await seqs({ kinds, limit: 2 })).toEqual([0, 1]);
    expect(await seqs({ kinds, after: 30, limit: 2 })).toEqual([31, 32]);
    expect(await seqs({ kinds, about: 'p1', last: 2 })).toEqual([32, 33]);
    expect(await seqs({ after: 29, limit: 4 })).toEqual([31, 32, 33, 34]);
  });
});

describe('the leaf hash of the store', () => {
  it('is the one of RFC 6962 that browsers work out, for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        expect(toHex(storedLeafHash(text))).toBe(toHex(leafHash(utf8(text))));
      }),
    );
    // RFC 6962 section 2.1: the hash of a leaf is SHA-256 over 0x00 and the leaf; of an empty one, its published value
    expect(toHex(storedLeafHash(''))).toBe(
      '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
    );
  });
});
