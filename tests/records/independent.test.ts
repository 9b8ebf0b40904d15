import { DataIntegrityProof } from '@digitalbazaar/data-integrity';
import { createVerifyCryptosuite } from '@digitalbazaar/eddsa-jcs-2022-cryptosuite';
import jsigs from 'jsonld-signatures';
import { describe, expect, it } from 'vitest';
import { type JsonObject, verificationMethodOf } from '../../src/records/index.ts';
import { sampleLeave } from './sample-authorisation.ts';
import { sampleProof } from './sample-log.ts';
import { vectorJson } from './vector-file.ts';

/*
 * Our credentials held against another implementation of the cryptosuite: the npm packages
 * @digitalbazaar/eddsa-jcs-2022-cryptosuite, data-integrity and jsonld-signatures (BSD 3-clause), with their
 * own canonicaliser, base58 and Ed25519. Nothing is fetched: the loader knows the key and no address.
 */
const { AssertionProofPurpose } = jsigs.purposes;

function loaderFor(did: string) {
  const method = {
    '@context': 'https://w3id.org/security/multikey/v1',
    id: verificationMethodOf(did),
    type: 'Multikey',
    controller: did,
    publicKeyMultibase: did.slice('did:key:'.length),
  };
  const controller = {
    '@context': ['https://www.w3.org/ns/did/v1', 'https://w3id.org/security/multikey/v1'],
    id: did,
    assertionMethod: [method],
  };
  const known = new Map<string, object>([
    [method.id, method],
    [did, controller],
  ]);
  return async (url: string) => {
    const document = known.get(url);
    if (document === undefined) throw new Error(`${url} would have to be fetched`);
    return { contextUrl: null, documentUrl: url, document };
  };
}

async function holds(document: JsonObject, did: string): Promise<boolean> {
  const { proof, ...rest } = document as JsonObject & { proof: unknown };
  const result = await jsigs.verify(
    { ...rest, proof: Array.isArray(proof) ? proof[0] : proof },
    {
      suite: new DataIntegrityProof({ cryptosuite: createVerifyCryptosuite() }),
      purpose: new AssertionProofPurpose(),
      documentLoader: loaderFor(did),
    },
  );
  return result.verified;
}

/** Every text and number in a value with its path, the signature's own value apart. */
function leavesOf(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [[...path]];
  return Object.entries(value).flatMap(([key, inner]) => leavesOf(inner, [...path, key]));
}

function mutate(document: JsonObject, path: readonly string[]): JsonObject {
  const copy = structuredClone(document) as Record<string, unknown>;
  const inner = path
    .slice(0, -1)
    .reduce<Record<string, unknown>>((at, step) => at[step] as Record<string, unknown>, copy);
  const last = path.at(-1) as string;
  const was = inner[last];
  inner[last] = typeof was === 'string' ? `${was}x` : typeof was === 'boolean' ? !was : 7;
  return copy;
}

const practical = await sampleProof();
const leave = await sampleLeave();
const { issuer } = practical;
const DOCUMENTS: readonly (readonly [string, JsonObject, number])[] = [
  ['of a sign-off', practical.file.credential, 40],
  ['of leave to work', leave.file.credential, 70],
  ['of a status list', practical.file.status as JsonObject, 10],
  ['of a list of what rests', leave.file.status.suspension[0] as unknown as JsonObject, 10],
];

it('this other implementation verifies the published credential of the W3C', async () => {
  // W3C Data Integrity EdDSA Cryptosuites v1.0, test vectors of eddsa-jcs-2022
  const { publicKeyMultibase } = vectorJson<{ publicKeyMultibase: string }>(
    'eddsa-jcs-2022/key-pair.json',
  );
  const did = `did:key:${publicKeyMultibase}`;
  expect(await holds(vectorJson<JsonObject>('eddsa-jcs-2022/signed.json'), did)).toBe(true);
});

describe.each(DOCUMENTS)('the credential %s, to another implementation', (_, document, atLeast) => {
  it('is signed as it stands', async () => {
    expect(await holds(document, issuer)).toBe(true);
  });

  it('is not, with any one value of it changed', async () => {
    const paths = leavesOf(document);
    expect(paths.length).toBeGreaterThan(atLeast);
    const believed: string[] = [];
    for (const path of paths) {
      // a proof of another type or suite is no proof it looks for, and is refused as missing
      if (await holds(mutate(document, path), issuer)) believed.push(path.join('.'));
    }
    expect(believed).toEqual([]);
  });
});
