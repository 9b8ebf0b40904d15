import { canonicalBytes, sha256, toHex } from '../../records/check/index.ts';

/** What a fresh sign-in is bound to when it enrols a device key: SHA-256 of this one-line statement. */
export const enrolmentHash = (keyId: string): string =>
  toHex(sha256(canonicalBytes({ enrol: keyId })));

/** What a fresh sign-in is bound to when it signs: SHA-256 of the statement's canonical bytes. */
export const statementHashOf = (statement: unknown): string =>
  toHex(sha256(canonicalBytes(statement)));
