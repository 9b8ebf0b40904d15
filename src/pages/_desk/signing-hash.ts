import { createHash } from 'node:crypto';

/**
 * What a passkey is asked about when it signs: these statements in this order, and the enrolment of a key that is new
 * to the site. An answer for one such list is worth nothing for another.
 */
export const signingHash = (statements: readonly string[], key: string | null): string =>
  createHash('sha256')
    .update(JSON.stringify([statements, key]))
    .digest('hex');
