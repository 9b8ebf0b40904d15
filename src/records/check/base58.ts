import type { Bytes } from './bytes.ts';

/** The alphabet of base58btc: no 0, O, I or l, which are mistaken for one another. */
const ALPHABET = '123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz';

/** Longer than any key or signature here; the method costs the square of the length. */
const MAX_LENGTH = 200;

/** Bytes as base58btc (Multibase, W3C Controlled Identifiers 1.0 section 2.4), without a prefix. */
export function toBase58(bytes: Uint8Array): string {
  const digits: number[] = [];
  for (const byte of bytes) {
    let carry = byte;
    for (let i = 0; i < digits.length; i++) {
      carry += (digits[i] as number) * 256;
      digits[i] = carry % 58;
      carry = Math.floor(carry / 58);
    }
    for (; carry > 0; carry = Math.floor(carry / 58)) digits.push(carry % 58);
  }
  const zeros = bytes.findIndex((byte) => byte !== 0);
  const lead = '1'.repeat(zeros === -1 ? bytes.length : zeros);
  return (
    lead +
    digits
      .reverse()
      .map((digit) => ALPHABET[digit])
      .join('')
  );
}

/** Bytes of base58btc text, or null when it is not that. */
export function fromBase58(text: string): Bytes | null {
  if (text.length > MAX_LENGTH) return null;
  const bytes: number[] = [];
  for (const char of text) {
    let carry = ALPHABET.indexOf(char);
    if (carry === -1) return null;
    for (let i = 0; i < bytes.length; i++) {
      carry += (bytes[i] as number) * 58;
      bytes[i] = carry % 256;
      carry = Math.floor(carry / 256);
    }
    for (; carry > 0; carry = Math.floor(carry / 256)) bytes.push(carry % 256);
  }
  const ones = text.length - text.replace(/^1+/, '').length;
  return new Uint8Array([...new Array<number>(ones).fill(0), ...bytes.reverse()]);
}
