import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';

/**
 * A value the browser carries for us and can neither read nor change: AES-256-GCM (NIST SP
 * 800-38D) with a fresh 96-bit nonce, base64url. It holds a task's seed between two requests, so
 * that somebody without an account can work at a fresh bench and nothing is stored about them.
 */

const NONCE_BYTES = 12;
const TAG_BYTES = 16;

/** @param secret 64 hex digits, from the site key's `deriveSecret` */
export function sealToken(secret: string, value: unknown): string {
  const nonce = randomBytes(NONCE_BYTES);
  const cipher = createCipheriv('aes-256-gcm', Buffer.from(secret, 'hex'), nonce);
  const sealed = Buffer.concat([cipher.update(JSON.stringify(value), 'utf8'), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), sealed]).toString('base64url');
}

/** The value sealed in a token, or null when it was not sealed here or has been changed. */
export function openToken(secret: string, token: string): unknown {
  const bytes = Buffer.from(token, 'base64url');
  if (bytes.length <= NONCE_BYTES + TAG_BYTES) return null;
  const nonce = bytes.subarray(0, NONCE_BYTES);
  const tag = bytes.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES);
  const decipher = createDecipheriv('aes-256-gcm', Buffer.from(secret, 'hex'), nonce);
  decipher.setAuthTag(tag);
  try {
    const opened = decipher.update(bytes.subarray(NONCE_BYTES + TAG_BYTES));
    return JSON.parse(Buffer.concat([opened, decipher.final()]).toString('utf8'));
  } catch {
    // a wrong tag and a torn token are the same thing to us: not ours
    return null;
  }
}
