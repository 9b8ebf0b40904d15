import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import { ofProcess } from '../../logging/index.ts';
import { makeTurns } from '../../store/index.ts';

/** What scrypt is asked for (RFC 7914): N is 2 to the power of `ln`. It takes 128 * N * r bytes. */
type Cost = { readonly ln: number; readonly r: number; readonly p: number };
type Kept = { readonly cost: Cost; readonly salt: Buffer | string; readonly key: Buffer };

/**
 * What new hashes cost: 32 MB and 786 432 blocks, one of the settings of OWASP's Password Storage Cheat Sheet
 * (N=2^15, r=8, p=3). Once it is raised, hashes of less are made anew as their owners come.
 */
const PRESENT: Cost = { ln: 15, r: 8, p: 3 };
/** What better-auth gave every hash until decision 46, and named in none. */
const FORMER: Cost = { ln: 14, r: 16, p: 1 };
const SALT_BYTES = 16;
const KEY_BYTES = 32;
/** Half of the four threads that files, packing and names of hosts share with it: 64 MB at the most. */
const AT_ONCE = 2;

const whole = (least: number, most: number) => z.coerce.number().int().min(least).max(most);
/** A row that was spoilt must not ask for more than 128 MB. */
const CostSchema = z
  .object({ ln: whole(1, 17), r: whole(1, 16), p: whole(1, 16) })
  .refine(({ ln, r }) => 2 ** ln * r <= 2 ** 20);

const PHC =
  /^\$scrypt\$ln=(?<ln>\d{1,2}),r=(?<r>\d{1,2}),p=(?<p>\d{1,2})\$(?<salt>[A-Za-z0-9+/]{6,64})\$(?<key>[A-Za-z0-9+/]{43,86})$/;
const OF_FORMER = /^(?<salt>[0-9a-f]{32}):(?<key>[0-9a-f]{128})$/;

const plain = (bytes: Buffer): string => bytes.toString('base64').replaceAll('=', '');

/** In the form of PHC strings, https://github.com/P-H-C/phc-string-format: each names what it cost. */
function writeKept({ ln, r, p }: Cost, salt: Buffer, key: Buffer): string {
  return `$scrypt$ln=${ln},r=${r},p=${p}$${plain(salt)}$${plain(key)}`;
}

/** @throws RangeError without the text: a hash in no form of ours is a spoilt row, never a wrong password */
function readKept(hash: string): Kept {
  const former = OF_FORMER.exec(hash)?.groups;
  if (former !== undefined) {
    // the salt was taken as its figures, not as the bytes they stand for
    const { salt = '', key = '' } = former;
    return { cost: FORMER, salt, key: Buffer.from(key, 'hex') };
  }
  const { salt = '', key = '', ...cost } = PHC.exec(hash)?.groups ?? {};
  const read = CostSchema.safeParse(cost);
  if (!read.success) throw new RangeError('The hash of a password is in no form this site knows.');
  return { cost: read.data, salt: Buffer.from(salt, 'base64'), key: Buffer.from(key, 'base64') };
}

const blocksOf = ({ ln, r, p }: Cost): number => 2 ** ln * r * p;

/** One queue for the process, whichever copy of this module asks. */
const turns = ofProcess('password-turns', () => makeTurns(AT_ONCE));

function stretch(password: string, salt: Buffer | string, cost: Cost, length: number) {
  const [N, { r, p }] = [2 ** cost.ln, cost];
  const options = { N, r, p, maxmem: 256 * N * r };
  return turns(
    () =>
      new Promise<Buffer>((done, fail) => {
        scrypt(password.normalize('NFKC'), salt, length, options, (error, key) =>
          error === null ? done(key) : fail(error),
        );
      }),
  );
}

/** The hash of a password, with a salt of its own, in the form of today. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  return writeKept(PRESENT, salt, await stretch(password, salt, PRESENT, KEY_BYTES));
}

/**
 * Does what a hash of less leaves over of the work of today: the time must not tell who has an old one. In 4 MB,
 * because taking the memory costs as much as a good part of the work, and was paid for already.
 */
async function makeUpFor(password: string, { cost, salt, key }: Kept): Promise<void> {
  const small = { ln: 12, r: 8 };
  const p = Math.round((blocksOf(PRESENT) - blocksOf(cost)) / blocksOf({ ...small, p: 1 }));
  if (p >= 1) await stretch(password, salt, { ...small, p }, key.length);
}

/** Whether a hash is of this password. Takes the work of today at least. @throws RangeError: no hash */
export async function verifyPassword({
  hash,
  password,
}: {
  readonly hash: string;
  readonly password: string;
}): Promise<boolean> {
  const kept = readKept(hash);
  const key = await stretch(password, kept.salt, kept.cost, kept.key.length);
  await makeUpFor(password, kept);
  return timingSafeEqual(key, kept.key);
}

/** Whether a hash is to be made anew: it takes less memory or work than today's, as every one of the former form does. */
export function isOutdated(hash: string): boolean {
  const { cost } = readKept(hash);
  const memory = ({ ln, r }: Cost): number => 2 ** ln * r;
  return memory(cost) < memory(PRESENT) || blocksOf(cost) < blocksOf(PRESENT);
}

/** A hash that no password has: whoever is not here costs the same work as whoever is. */
export const NO_HASH = writeKept(PRESENT, Buffer.alloc(SALT_BYTES), Buffer.alloc(KEY_BYTES));
