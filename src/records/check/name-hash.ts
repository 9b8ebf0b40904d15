import { toHex, utf8 } from './bytes.ts';
import { sha256 } from './hash.ts';

/** Hexadecimal digits in a salt: 128 bits. The fixed length keeps name and salt apart. */
const SALT_DIGITS = 32;

/**
 * Stands for a name in the log: SHA-256 over the name and a salt, written as the hashed identity of
 * Open Badges 3.0. Without the salt it cannot be tried against a list of names; once the salt is
 * thrown away it stands for nobody.
 *
 * @param salt 32 hexadecimal digits, one salt to a person
 * @throws RangeError for any other salt
 */
export function nameHash(name: string, salt: string): string {
  if (salt.length !== SALT_DIGITS || !/^[0-9a-f]*$/.test(salt)) {
    throw new RangeError(`salt must be ${SALT_DIGITS} hexadecimal digits.`);
  }
  return `sha256$${toHex(sha256(utf8(name.normalize('NFC') + salt)))}`;
}

/** A fresh random salt. */
export const newSalt = (): string => toHex(crypto.getRandomValues(new Uint8Array(SALT_DIGITS / 2)));
