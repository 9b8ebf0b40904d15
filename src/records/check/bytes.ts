/** Bytes that own their buffer, as WebCrypto asks for. */
export type Bytes = Uint8Array<ArrayBuffer>;

const encoder = new TextEncoder();

/** The text's UTF-8 bytes. A lone surrogate would turn into U+FFFD: canonical text refuses those first. */
export const utf8 = (text: string): Bytes => encoder.encode(text);

export function joinBytes(...parts: readonly Uint8Array[]): Bytes {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** Whether two byte strings are equal. Not constant time: everything compared here is public. */
export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, index) => byte === b[index]);
}

export const toHex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

/** Bytes of lower-case hexadecimal, or null for anything else. */
export function fromHex(text: string): Bytes | null {
  if (text.length % 2 !== 0 || !/^[0-9a-f]*$/.test(text)) return null;
  const bytes = new Uint8Array(text.length / 2);
  for (let i = 0; i < bytes.length; i++)
    bytes[i] = Number.parseInt(text.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}

/** Standard base 64 with padding, RFC 4648 section 4. */
export function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}

/**
 * Bytes of standard base 64, or null. Only the one spelling `toBase64` writes is taken: stray bits
 * in the last character or missing padding would let a file change without its bytes changing.
 */
export function fromBase64(text: string): Bytes | null {
  if (text.length % 4 !== 0 || !/^[A-Za-z0-9+/]*={0,2}$/.test(text)) return null;
  const bytes = Uint8Array.from(atob(text), (char) => char.charCodeAt(0));
  return toBase64(bytes) === text ? bytes : null;
}

/** Base 64 for addresses, without padding, RFC 4648 section 5. */
export const toBase64Url = (bytes: Uint8Array): string =>
  toBase64(bytes).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');

/** Bytes of base 64 for addresses without padding, or null; again only the one spelling. */
export function fromBase64Url(text: string): Bytes | null {
  if (!/^[A-Za-z0-9_-]*$/.test(text)) return null;
  const padded = text.replaceAll('-', '+').replaceAll('_', '/');
  return fromBase64(padded.padEnd(Math.ceil(text.length / 4) * 4, '='));
}
