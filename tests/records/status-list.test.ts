import { describe, expect, it } from 'vitest';
import {
  type Bytes,
  bitAt,
  buildStatusList,
  decodeBits,
  didOf,
  encodeBits,
  LIST_BITS,
  statusEntryOf,
  statusPlaceOf,
  verificationMethodOf,
  verifyProofOf,
} from '../../src/records/check/index.ts';
import { seedKey } from './sample-log.ts';

const AS_OF = { asOf: '2026-03-03T11:00:00.000Z', validUntil: '2026-04-03T11:00:00.000Z' };

describe('bit strings of a status list', () => {
  it('unpacks the example of the W3C Recommendation: 16 KB with no bit set', async () => {
    // W3C Bitstring Status List v1.0, example of a status list credential
    const bits = await decodeBits(
      'uH4sIAAAAAAAAA-3BMQEAAADCoPVPbQwfoAAAAAAAAAAAAAAAAAAAAIC3AYbSVKsAQAAA',
    );
    expect(bits).toEqual(new Uint8Array(LIST_BITS / 8));
  });

  it('finds the one bit that another implementation set', async () => {
    // test data of @digitalbazaar/vc-bitstring-status-list (BSD 3-clause): 100,000 entries, 50,000 set
    const bits = (await decodeBits(
      'uH4sIAAAAAAAAA-3OMQ0AAAgDsElHOh72EJJWQRMAAAAAAIDWXAcAAAAAAIDHFvRitn7UMAAA',
    )) as Bytes;
    const set = Array.from({ length: 100_000 }, (_, index) => index).filter(
      (index) => bitAt(bits, index) === 1,
    );
    expect(set).toEqual([50_000]);
  });

  it('counts from the highest bit of the first byte', () => {
    const bits = Uint8Array.of(0b1000_0000, 0b0000_0001);
    expect([0, 1, 15, 16].map((index) => bitAt(bits, index))).toEqual([1, 0, 1, null]);
  });

  it('reads back what it wrote', async () => {
    const bits = new Uint8Array(LIST_BITS / 8).map((_, index) => (index * 37) & 255);
    expect(await decodeBits(await encodeBits(bits))).toEqual(bits);
  });

  it('has no bits for what is not packed, not whole, or unpacks beyond measure', async () => {
    expect(await decodeBits('H4sI')).toBeNull();
    expect(await decodeBits('u!!!!')).toBeNull();
    expect(await decodeBits('uAAAA')).toBeNull();
    const bomb = await encodeBits(new Uint8Array(5 * 1024 * 1024));
    expect(bomb.length).toBeLessThan(10_000);
    expect(await decodeBits(bomb)).toBeNull();
  });
});

describe('a status list', () => {
  it('sets the bits of the sign-offs withdrawn in it, and no others', async () => {
    const key = await seedKey(1);
    const list = await buildStatusList(key, {
      list: 1,
      withdrawn: [5, LIST_BITS + 3, LIST_BITS + 8],
      ...AS_OF,
    });
    const bits = (await decodeBits(list.credentialSubject.encodedList)) as Bytes;
    const set = Array.from({ length: LIST_BITS }, (_, index) => index).filter(
      (index) => bitAt(bits, index) === 1,
    );
    expect(set).toEqual([3, 8]);
  });

  it('is signed by its issuer and found where an entry points', async () => {
    const key = await seedKey(1);
    const issuer = didOf(key.keyId);
    const list = await buildStatusList(key, { list: 0, withdrawn: [], ...AS_OF });
    expect(await verifyProofOf(list, key.publicKey, verificationMethodOf(issuer))).toBe(true);
    expect(statusEntryOf(issuer, 41).statusListCredential).toBe(list.id);
    expect(statusEntryOf(issuer, LIST_BITS + 41)).toMatchObject({
      statusListIndex: '41',
      statusListCredential: `${issuer}/status/1`,
    });
    expect(statusPlaceOf(LIST_BITS)).toEqual({ list: 1, bit: 0 });
  });
});
