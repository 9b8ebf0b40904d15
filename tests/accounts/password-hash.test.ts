import { readFile } from 'node:fs/promises';
import { scryptAsync } from '@noble/hashes/scrypt.js';
import { hashPassword as hashAsLibrary } from 'better-auth/crypto';
import { describe, expect, it } from 'vitest';
import {
  hashPassword,
  isOutdated,
  NO_HASH,
  verifyPassword,
} from '../../src/accounts/passwords/password-hash.ts';
import { makeTurns } from '../../src/store/index.ts';
import { forgetHashes } from '../helpers/hash-once.ts';

const PASSWORD = 'ﬁve planks, straight grain';
const plain = (bytes: Uint8Array | string, coding: 'hex' | 'utf8' = 'utf8'): string =>
  (typeof bytes === 'string' ? Buffer.from(bytes, coding) : Buffer.from(bytes))
    .toString('base64')
    .replaceAll('=', '');

describe('a hash of a password', () => {
  // RFC 7914, section 12: "Test Vectors for scrypt", the second and the third
  it.each([
    [
      ['password', 'NaCl', 'ln=10,r=8,p=16'],
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162' +
        '2eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640',
    ],
    [
      ['pleaseletmein', 'SodiumChloride', 'ln=14,r=8,p=1'],
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2' +
        'd5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887',
    ],
  ] as const)('is what RFC 7914 publishes for %s', async ([password, salt, cost], key) => {
    const hash = `$scrypt$${cost}$${plain(salt)}$${plain(key, 'hex')}`;
    expect(await verifyPassword({ hash, password })).toBe(true);
    expect(await verifyPassword({ hash, password: `${password}.` })).toBe(false);
    expect(isOutdated(hash)).toBe(true);
  });

  it('is of another implementation’s making too (@noble/hashes), with the parameters it names', async () => {
    const salt = Buffer.from('sixteen bytes of');
    // OWASP Password Storage Cheat Sheet, scrypt: N=2^15 (32 MiB), r=8 (1024 bytes), p=3
    const cost = { N: 2 ** 15, r: 8, p: 3, dkLen: 32 };
    const key = await scryptAsync(PASSWORD.normalize('NFKC'), salt, cost);
    const hash = `$scrypt$ln=15,r=8,p=3$${plain(salt)}$${plain(key)}`;
    expect(await verifyPassword({ hash, password: PASSWORD })).toBe(true);
    expect(isOutdated(hash)).toBe(false);
  });

  it('names what it cost, has a salt of its own, and knows its password alone', async () => {
    const [one, two] = [await hashPassword(PASSWORD), await hashPassword(PASSWORD)];
    expect(one).toMatch(/^\$scrypt\$ln=15,r=8,p=3\$/);
    expect(one).not.toBe(two);
    expect(isOutdated(one)).toBe(false);
    expect(await verifyPassword({ hash: one, password: PASSWORD })).toBe(true);
    // a keyboard may write the same signs in other code points (NFKC)
    expect(await verifyPassword({ hash: one, password: PASSWORD.replace('ﬁ', 'fi') })).toBe(true);
    expect(await verifyPassword({ hash: one, password: PASSWORD.toUpperCase() })).toBe(false);
    expect(await verifyPassword({ hash: NO_HASH, password: PASSWORD })).toBe(false);
  });

  it('of the library’s own form still holds, and is to be made anew', async () => {
    const hash = await hashAsLibrary(PASSWORD);
    expect(await verifyPassword({ hash, password: PASSWORD })).toBe(true);
    expect(await verifyPassword({ hash, password: 'another password' })).toBe(false);
    expect(isOutdated(hash)).toBe(true);
  });

  it.each([
    ['ln=15,r=8,p=3', false],
    ['ln=16,r=8,p=2', false],
    ['ln=17,r=8,p=1', false],
    ['ln=15,r=8,p=2', true],
    ['ln=14,r=8,p=5', true],
    ['ln=14,r=8,p=16', true],
  ])('that says %s: outdated is %s', (cost, outdated) => {
    expect(isOutdated(NO_HASH.replace('ln=15,r=8,p=3', cost))).toBe(outdated);
  });

  it.each([
    ['nothing', ''],
    ['a word', 'secret-row'],
    ['no key', '$scrypt$ln=15,r=8,p=3$AAAAAAAAAAAAAAAAAAAAAA$'],
    ['another function', NO_HASH.replace('scrypt', 'argon2id')],
    ['4 GB of memory', NO_HASH.replace('ln=15', 'ln=22')],
    ['256 MB of memory', NO_HASH.replace('ln=15,r=8', 'ln=17,r=16')],
    ['hours of work', NO_HASH.replace('p=3', 'p=99')],
    ['no work', NO_HASH.replace('ln=15', 'ln=0')],
  ])('that is spoilt is refused and not repeated: %s', async (_name, hash) => {
    const said = await verifyPassword({ hash, password: PASSWORD }).catch((error) => error);
    expect(said).toBeInstanceOf(RangeError);
    expect(said.message).toBe('The hash of a password is in no form this site knows.');
  });
});

describe('the work of a check', () => {
  it('is the same for a hash of the former form, so that it tells of nobody', async () => {
    const former = await hashAsLibrary(PASSWORD);
    const times = { former: [] as number[], nobody: [] as number[] };
    for (let i = 0; i < 5; i++) {
      for (const [who, hash] of [
        ['former', former],
        ['nobody', NO_HASH],
      ] as const) {
        forgetHashes();
        const begun = process.cpuUsage();
        await verifyPassword({ hash, password: 'a wrong password' });
        const { user, system } = process.cpuUsage(begun);
        times[who].push((user + system) / 1_000);
      }
    }
    const [old = 0, none = 0] = [times.former, times.nobody].map(
      (list) => list.sort((a, b) => a - b)[2],
    );
    console.log(`ms of work, former hash and nobody: ${old.toFixed(1)}, ${none.toFixed(1)}`);
    // without what is made up for, the former one takes two thirds at the most
    expect(Math.abs(old - none)).toBeLessThan(0.25 * Math.max(old, none));
  }, 120_000);

  it('leaves threads for files while many are checked', async () => {
    const order: string[] = [];
    const checks = Array.from({ length: 8 }, (_, i) =>
      verifyPassword({ hash: NO_HASH, password: `guess ${i}` }).then(() => order.push(`${i}`)),
    );
    await readFile(import.meta.filename);
    order.push('file');
    await Promise.all(checks);
    expect(order[0]).toBe('file');
    expect(order).toHaveLength(9);
  });
});

describe('taking turns', () => {
  it('runs so many at once, the first first, and a failure makes room', async () => {
    const turns = makeTurns(2);
    const begun: number[] = [];
    const end: ((fails: boolean) => void)[] = [];
    const settled: string[] = [];
    const all = Array.from({ length: 200 }, (_, i) =>
      turns(async () => {
        begun.push(i);
        await new Promise<void>((take, fail) => {
          end[i] = (fails) => (fails ? fail(new Error(`${i}`)) : take());
        });
      }).then(
        () => settled.push(`done ${i}`),
        () => settled.push(`failed ${i}`),
      ),
    );
    const rest = () => new Promise((wake) => setImmediate(wake));
    for (let i = 0; i < 200; i++) {
      await rest();
      expect(begun.length - settled.length).toBe(Math.min(2, 200 - i));
      end[i]?.(i % 3 === 0);
    }
    await Promise.all(all);
    expect(begun).toEqual(Array.from({ length: 200 }, (_, i) => i));
    expect(settled.filter((one) => one.startsWith('failed'))).toHaveLength(67);
    // and whoever comes to an empty queue begins at once
    expect(await turns(async () => 'now')).toBe('now');
  });

  it('lets nobody who comes later take the place of whoever waits', async () => {
    const turns = makeTurns(2);
    let [running, most, come] = [0, 0, 0];
    const work = async (): Promise<void> => {
      running += 1;
      most = Math.max(most, running);
      await new Promise((wake) => setImmediate(wake));
      running -= 1;
    };
    const all: Promise<void>[] = [];
    const comeAgain = (): void => {
      come += 1;
      if (come < 100) all.push(turns(work).then(comeAgain), turns(work).then(comeAgain));
    };
    comeAgain();
    for (let i = 0; i < all.length; i++) await all[i];
    expect(all.length).toBeGreaterThan(100);
    expect(most).toBe(2);
  });
});
