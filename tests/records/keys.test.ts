import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Bytes,
  didOf,
  exportSigningKey,
  fromBase58,
  fromBase64,
  fromBase64Url,
  fromHex,
  generateSigningKey,
  importSigningKey,
  KeyError,
  nameHash,
  newSalt,
  publicJwkOf,
  publicKeyOf,
  publicKeyOfDid,
  signBytes,
  toBase58,
  toBase64,
  toBase64Url,
  toHex,
  utf8,
  verificationMethodOf,
  verifySignature,
} from '../../src/records/check/index.ts';
import { vectorJson } from './vector-file.ts';

const hex = (text: string): Bytes => fromHex(text) as Bytes;
const importSeed = (seed: string, publicKey: string) =>
  importSigningKey({ ...publicJwkOf(hex(publicKey)), d: toBase64Url(hex(seed)) });

// RFC 8032 section 7.1: TEST 1, TEST 2, TEST 3 and TEST SHA(abc)
const RFC_8032 = [
  {
    title: 'TEST 1',
    seed: '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    publicKey: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    message: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
  {
    title: 'TEST 2',
    seed: '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    publicKey: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    message: '72',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    title: 'TEST 3',
    seed: 'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    publicKey: 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    message: 'af82',
    signature:
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  },
  {
    title: 'TEST SHA(abc)',
    seed: '833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42',
    publicKey: 'ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf',
    message:
      'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
    signature:
      'dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704',
  },
];

describe('Ed25519, RFC 8032 section 7.1', () => {
  it.each(RFC_8032)(
    'signs and verifies $title',
    async ({ message, publicKey, seed, signature }) => {
      const key = await importSeed(seed, publicKey);
      expect(toHex(await signBytes(key, hex(message)))).toBe(signature);
      expect(await verifySignature(hex(publicKey), hex(message), hex(signature))).toBe(true);
      expect(await verifySignature(hex(publicKey), hex(`${message}00`), hex(signature))).toBe(
        false,
      );
    },
  );

  it('refuses a signature whose scalar was raised by the group order', async () => {
    // RFC 8032 section 5.1.7: S must be below L = 2^252 + 27742317777372353535851937790883648493
    const { message, publicKey, signature } = RFC_8032[1] as (typeof RFC_8032)[number];
    const order = 2n ** 252n + 27742317777372353535851937790883648493n;
    const scalar = BigInt(`0x${Buffer.from(signature.slice(64), 'hex').reverse().toString('hex')}`);
    const raised = (scalar + order).toString(16).padStart(64, '0');
    const twisted = signature.slice(0, 64) + Buffer.from(raised, 'hex').reverse().toString('hex');
    expect(await verifySignature(hex(publicKey), hex(message), hex(twisted))).toBe(false);
  });
});

describe('signing keys', () => {
  it('keeps a device key on its device', async () => {
    const key = await generateSigningKey({ keep: 'on-device' });
    expect(key.privateKey.extractable).toBe(false);
    await expect(exportSigningKey(key)).rejects.toThrow('This key was made to stay on its device.');
    const note = utf8('a note');
    expect(await verifySignature(key.publicKey, note, await signBytes(key, note))).toBe(true);
  });

  it('brings an exportable key back as the same key, unexportable', async () => {
    const key = await generateSigningKey({ keep: 'exportable' });
    const again = await importSigningKey(await exportSigningKey(key));
    expect(again.keyId).toBe(key.keyId);
    expect(again.privateKey.extractable).toBe(false);
    expect(toHex(await signBytes(again, utf8('x')))).toBe(toHex(await signBytes(key, utf8('x'))));
  });

  it('refuses halves of two different keys', async () => {
    const [one, two] = RFC_8032 as [(typeof RFC_8032)[number], (typeof RFC_8032)[number]];
    await expect(importSeed(one.seed, two.publicKey)).rejects.toThrow(KeyError);
  });

  it('refuses what is no key', async () => {
    const jwk = { kty: 'OKP', crv: 'Ed25519', x: 'AA', d: 'AA' } as const;
    await expect(importSigningKey(jwk)).rejects.toThrow(KeyError);
  });

  it('signs through a keeper that has the key elsewhere', async () => {
    const keeper = {
      keyId: 'z',
      publicKey: new Uint8Array(32),
      signBytes: () => Uint8Array.of(1, 2),
    };
    expect(await signBytes(keeper, utf8('x'))).toEqual(Uint8Array.of(1, 2));
  });

  it('answers no, and does not throw, for a key or signature of the wrong length', async () => {
    expect(await verifySignature(new Uint8Array(3), utf8('x'), new Uint8Array(64))).toBe(false);
    expect(await verifySignature(new Uint8Array(32), utf8('x'), new Uint8Array(3))).toBe(false);
  });
});

describe('did:key', () => {
  // W3C Data Integrity EdDSA Cryptosuites v1.0, test vectors, key pair
  const pair = vectorJson<{ publicKeyMultibase: string; privateKeyMultibase: string }>(
    'eddsa-jcs-2022/key-pair.json',
  );

  it('spells the W3C public key as published', async () => {
    const secret = (fromBase58(pair.privateKeyMultibase.slice(1)) as Bytes).slice(2);
    const publicKey = publicKeyOf(pair.publicKeyMultibase) as Bytes;
    // the seed and the key belong together, or this throws
    const key = await importSigningKey({ ...publicJwkOf(publicKey), d: toBase64Url(secret) });
    expect(key.keyId).toBe(pair.publicKeyMultibase);
    expect(verificationMethodOf(didOf(key.keyId))).toBe(
      `did:key:${pair.publicKeyMultibase}#${pair.publicKeyMultibase}`,
    );
  });

  it.each([
    ['another kind of key', 'did:key:zDnaegE6RR3atJtHKwTRTWHsJ3kNHqFwv7n9YjTgmU7TyfU76'],
    ['a key cut short', `did:key:${pair.publicKeyMultibase.slice(0, -1)}`],
    ['a key with a letter too many', `did:key:${pair.publicKeyMultibase}1`],
    // 0xec is X25519 in the multicodec table: a key that cannot sign
    [
      'a key for agreement',
      `did:key:z${toBase58(Uint8Array.from([0xec, 1, ...new Array(32).fill(7)]))}`,
    ],
    ['another method', `did:web:${pair.publicKeyMultibase}`],
    ['nothing', ''],
    ['a letter outside base 58', 'did:key:z6MkO0Il'],
  ])('has no key for %s', (_, did) => {
    expect(publicKeyOfDid(did)).toBeNull();
  });
});

describe('base 58', () => {
  // draft-msporny-base58-03 section 5, test vectors
  it.each([
    ['48656c6c6f20576f726c6421', '2NEpo7TZRRrLZSi2U'],
    [
      '54686520717569636b2062726f776e20666f78206a756d7073206f76657220746865206c617a7920646f672e',
      'USm3fpXnKG5EUBx2ndxBDMPVciP5hGey2Jh4NDv6gmeo1LkMeiKrLJUUBk6Z',
    ],
    ['0000287fb4cd', '11233QC4'],
  ])('spells %s as published', (bytes, text) => {
    expect(toBase58(hex(bytes))).toBe(text);
    expect(toHex(fromBase58(text) as Bytes)).toBe(bytes);
  });

  it.each(['0', 'O', 'I', 'l', '2NEpo7TZRRrLZSi2U!', 'é', '1'.repeat(201)])(
    'has no bytes for "%s"',
    (text) => {
      expect(fromBase58(text)).toBeNull();
    },
  );

  it('reads back every byte string, zeros in front and all', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), (bytes) => {
        expect(fromBase58(toBase58(bytes))).toEqual(new Uint8Array(bytes));
      }),
      { seed: 58 },
    );
  });
});

describe('base 64', () => {
  // RFC 4648 section 10
  it.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('spells "%s" as RFC 4648 does', (plain, coded) => {
    expect(toBase64(utf8(plain))).toBe(coded);
    expect(fromBase64(coded)).toEqual(utf8(plain));
  });

  it.each(['Zg', 'Zh==', 'Zm9=', 'Z===', 'Zg==\n', 'Zm9-', '=Zg='])(
    'refuses the spelling "%s"',
    (text) => {
      expect(fromBase64(text)).toBeNull();
    },
  );

  it.each(['Zh', 'Zg==', 'Zm9v+', 'Z'])('for addresses, refuses "%s"', (text) => {
    expect(fromBase64Url(text)).toBeNull();
  });

  it('takes exactly one spelling of every byte string', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ minLength: 1, maxLength: 70 }),
        fc.nat(),
        fc.nat(127),
        (bytes, where, code) => {
          const text = toBase64Url(bytes);
          expect(fromBase64Url(text)).toEqual(new Uint8Array(bytes));
          const at = where % text.length;
          const other = text.slice(0, at) + String.fromCharCode(code) + text.slice(at + 1);
          if (other !== text) expect(fromBase64Url(other)).not.toEqual(new Uint8Array(bytes));
        },
      ),
      { seed: 4648 },
    );
  });
});

describe('salted name hashes', () => {
  it('agree with the example of Open Badges 3.0, salt apart', async () => {
    const hex = async (text: string) =>
      Buffer.from(await crypto.subtle.digest('SHA-256', Buffer.from(text))).toString('hex');
    // 1EdTech Open Badges 3.0, IdentityHash: 'a@example.com' salted with 'Kosher'
    const published = 'b5809d8a92f8858436d7e6b87c12ebc0ae1eac4baecc2c0b913aee2c922ef399';
    // our salts are 32 hexadecimal digits, so the published one is tried on the bare recipe
    expect(await hex('a@example.comKosher')).toBe(published);
    const salt = '00112233445566778899aabbccddeeff';
    expect(nameHash('Mira Holt', salt)).toBe(`sha256$${await hex(`Mira Holt${salt}`)}`);
  });

  it('differ from salt to salt, and refuse one that is too short', () => {
    const [one, two] = [newSalt(), newSalt()];
    expect(nameHash('Mira Holt', one)).not.toBe(nameHash('Mira Holt', two));
    expect(() => nameHash('Mira Holt', 'abc')).toThrow('salt must be 32 hexadecimal digits.');
  });

  it('take a name in one form, however its accents are typed', () => {
    const salt = newSalt();
    expect(nameHash('Jos\u00e9', salt)).toBe(nameHash('Jose\u0301', salt));
  });
});

describe('the code that checks in a page', () => {
  it('needs neither zod nor Node', () => {
    const folder = new URL('../../src/records/check/', import.meta.url);
    const index = readFileSync(new URL('index.ts', folder), 'utf8');
    const files = [...index.matchAll(/from '\.\/(.+?)'/g)].map(([, name]) => name as string);
    expect(files.length).toBeGreaterThan(15);
    const imports = files.flatMap((name) =>
      [
        ...readFileSync(new URL(name, folder), 'utf8').matchAll(
          /import (?!type)[^;]*?from '(.+?)'/g,
        ),
      ].map(([, from]) => from as string),
    );
    const outside = [...new Set(imports.filter((from) => !from.startsWith('./')))].sort();
    expect(outside).toEqual(['@noble/hashes/sha2.js', 'canonicalize']);
  });
});
