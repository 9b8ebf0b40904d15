import { createHash, randomBytes } from 'node:crypto';

/** 32 random bytes (256 bits) as base64url, 43 characters: for invitations and sign-in tickets. */
export function makeToken(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a token or key: its SHA-256 in hexadecimal, so a stolen copy of the store opens nothing. */
export function hashToken(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
