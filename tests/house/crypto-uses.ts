import { globSync, readFileSync } from 'node:fs';
import { resolve, sep } from 'node:path';

const ROOT = resolve(import.meta.dirname, '../..');

/** Code without its comments, which may name what they like. */
const withoutComments = (text: string): string =>
  text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/(^|\s)\/\/.*$/gm, '');

/** Anything that makes, keeps or checks by cryptography, or draws what must not be guessed. */
const USES: readonly (readonly [algorithm: string, seen: RegExp])[] = [
  ['SHA-256', /createHash\('sha256'\)|@noble\/hashes\/sha2/],
  ['HMAC-SHA-256', /createHmac\('sha256'/],
  ['HMAC-SHA-1', /from 'otpauth'/],
  ['AES-256-GCM', /'aes-256-gcm'/],
  [
    'another hash or cipher',
    /createH(ash|mac)\((?!'sha256')|create(De)?[Cc]ipheriv\((?!'aes-256-gcm')/,
  ],
  ['HKDF-SHA-256', /hkdfSync\('sha256'/],
  ['Ed25519', /subtle[\s.]*\.?(generateKey|importKey|sign|verify)\([^)]*'Ed25519'/],
  ['PBKDF2-HMAC-SHA-256', /name: 'PBKDF2', hash: 'SHA-256'/],
  ['scrypt', /\$context\)\.password\b|scrypt(Sync)?\(/],
  ['WebAuthn', /'@simplewebauthn\/server'/],
  ['equal-time', /timingSafeEqual\(/],
  ['chance', /randomBytes\(|getRandomValues\(|randomUUID\(|randomInt\(|(?<!z\.)\buuidv7\(/],
];
/** A way into a library of cryptography that is none of the above: a test fails on it until it is named. */
const ANY =
  /createHash\(|createHmac\(|create(De)?[Cc]ipher|createSign|createVerify|hkdf(Sync)?\(|pbkdf2|subtle\b[\s.]*\.|@noble\/|'(node:)?crypto'|argon2|bcrypt|from 'jose'/;

export type CryptoUse = { readonly file: string; readonly algorithms: readonly string[] };

/** Every file of the site that uses cryptography, with what it uses. */
export function findCryptoUses(): CryptoUse[] {
  return globSync('src/**/*.{ts,tsx,mjs,astro}', { cwd: ROOT })
    .map((file) => file.split(sep).join('/'))
    .sort()
    .flatMap((file) => {
      const text = withoutComments(readFileSync(resolve(ROOT, file), 'utf8'));
      const algorithms = USES.flatMap(([name, seen]) => (seen.test(text) ? [name] : []));
      if (algorithms.length === 0 && ANY.test(text)) return [{ file, algorithms: ['not known'] }];
      return algorithms.length === 0 ? [] : [{ file, algorithms }];
    });
}

/** The uses of the secrets that come from the site key. */
export const findDerived = (): string[] =>
  globSync('src/**/*.{ts,astro}', { cwd: ROOT }).flatMap((file) =>
    [...readFileSync(resolve(ROOT, file), 'utf8').matchAll(/deriveSecret\('([^']+)'\)/g)].map(
      ([, use = '']) => use,
    ),
  );
