import { describe, expect, it } from 'vitest';
import {
  addProof,
  type Bytes,
  canonicalText,
  fromBase58,
  importSigningKey,
  integrityHash,
  type JsonObject,
  publicJwkOf,
  publicKeyOf,
  sha256,
  signBytes,
  toBase58,
  toBase64Url,
  toHex,
  utf8,
  verifyProofOf,
} from '../../src/records/check/index.ts';
import { vectorJson, vectorText } from './vector-file.ts';

const vector = (name: string) => vectorText(`eddsa-jcs-2022/${name}.txt`).trim();
const pair = vectorJson<{ publicKeyMultibase: string; privateKeyMultibase: string }>(
  'eddsa-jcs-2022/key-pair.json',
);
const unsigned = vectorJson<JsonObject>('eddsa-jcs-2022/unsigned.json');
const config = vectorJson<JsonObject>('eddsa-jcs-2022/proof-config.json');
const signed = vectorJson<JsonObject & { proof: JsonObject }>('eddsa-jcs-2022/signed.json');
const publicKey = publicKeyOf(pair.publicKeyMultibase) as Bytes;
const did = `did:key:${pair.publicKeyMultibase}`;
const method = `${did}#${pair.publicKeyMultibase}`;
const seed = (fromBase58(pair.privateKeyMultibase.slice(1)) as Bytes).slice(2);
const importPair = () => importSigningKey({ ...publicJwkOf(publicKey), d: toBase64Url(seed) });

// W3C Data Integrity EdDSA Cryptosuites v1.0 (15 May 2025), test vectors of eddsa-jcs-2022
describe('eddsa-jcs-2022 against the W3C vectors, byte for byte', () => {
  it('writes the document and the proof options as published', () => {
    expect(canonicalText(unsigned)).toBe(vector('canon-doc'));
    expect(canonicalText(config)).toBe(vector('proof-canon'));
  });

  it('hashes both as published, the options first', () => {
    expect(toHex(sha256(utf8(canonicalText(unsigned))))).toBe(vector('doc-hash'));
    expect(toHex(sha256(utf8(canonicalText(config))))).toBe(vector('proof-hash'));
    expect(toHex(integrityHash(unsigned, config))).toBe(vector('combined-hash'));
  });

  it('signs as published', async () => {
    const made = await addProof(unsigned, await importPair(), {
      created: '2023-02-24T23:36:38Z',
      issuer: did,
    });
    expect(made.proof[0].proofValue).toBe(vector('sig-btc58'));
    expect(toHex(fromBase58(made.proof[0].proofValue.slice(1)) as Bytes)).toBe(vector('sig-hex'));
    // the published one has its proof alone, ours in a list as Open Badges asks
    expect({ ...made, proof: made.proof[0] }).toEqual(signed);
  });

  it('verifies the published credential, its proof alone or in a list', async () => {
    expect(await verifyProofOf(signed, publicKey, method)).toBe(true);
    expect(await verifyProofOf({ ...signed, proof: [signed.proof] }, publicKey, method)).toBe(true);
  });
});

describe('a data integrity proof', () => {
  const other = { ...signed.proof };
  it.each<[string, JsonObject]>([
    ['a changed field', { ...signed, name: 'Another credential' }],
    ['a field added', { ...signed, extra: true }],
    [
      'a field taken out',
      Object.fromEntries(Object.entries(signed).filter(([name]) => name !== 'name')),
    ],
    [
      'another moment of signing',
      { ...signed, proof: { ...other, created: '2023-02-24T23:36:39Z' } },
    ],
    ['another purpose', { ...signed, proof: { ...other, proofPurpose: 'authentication' } }],
    ['another suite', { ...signed, proof: { ...other, cryptosuite: 'eddsa-rdfc-2022' } }],
    ['another type', { ...signed, proof: { ...other, type: 'Ed25519Signature2020' } }],
    ['another method', { ...signed, proof: { ...other, verificationMethod: `${method}0` } }],
    ['a value that is not base 58', { ...signed, proof: { ...other, proofValue: 'zO0' } }],
    [
      'a value in another base',
      { ...signed, proof: { ...other, proofValue: `u${'A'.repeat(86)}` } },
    ],
    ['a value that is too short', { ...signed, proof: { ...other, proofValue: 'z2HnF' } }],
    [
      'contexts in another order',
      { ...signed, '@context': [...(signed['@context'] as string[])].reverse() },
    ],
    ['a context fewer', { ...signed, '@context': (signed['@context'] as string[]).slice(1) }],
    ['no proof in the list', { ...signed, proof: [] }],
    ['a second proof', { ...signed, proof: [other, other] }],
  ])('does not hold with %s', async (_, document) => {
    expect(await verifyProofOf(document, publicKey, method)).toBe(false);
  });

  it.each<[string, JsonObject, boolean]>([
    ['the options it should have', {}, true],
    ['another purpose', { proofPurpose: 'authentication' }, false],
    ['another suite', { cryptosuite: 'eddsa-rdfc-2022' }, false],
    ['another type', { type: 'Ed25519Signature2020' }, false],
    ['another method', { verificationMethod: `${method}x` }, false],
    [
      'contexts the document does not have',
      { '@context': ['https://www.w3.org/ns/credentials/v1'] },
      false,
    ],
    [
      'fewer contexts than the document',
      { '@context': 'https://www.w3.org/ns/credentials/v2' },
      false,
    ],
  ])('rightly signed by the key with %s', async (_, change, holds) => {
    const options = { ...config, ...change };
    const signature = await signBytes(await importPair(), integrityHash(unsigned, options));
    const document = {
      ...unsigned,
      proof: [{ ...options, proofValue: `z${toBase58(signature)}` }],
    };
    expect(await verifyProofOf(document, publicKey, method)).toBe(holds);
  });

  it('does not hold under another key', async () => {
    const stranger = publicKey.slice().reverse();
    expect(await verifyProofOf(signed, stranger, method)).toBe(false);
  });
});
