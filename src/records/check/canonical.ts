import canonicalize from 'canonicalize';
import { type Bytes, utf8 } from './bytes.ts';

/** Deeper than any record here; a file nested deeper is an attack or a mistake. */
const MAX_DEPTH = 64;

/** A value that has no canonical form, with the place in it that has none. */
export class NotCanonicalError extends Error {
  override readonly name = 'NotCanonicalError';
}

function refuse(path: string, why: string): never {
  throw new NotCanonicalError(`${path === '' ? 'The value' : path} ${why}.`);
}

function isPlainObject(value: object): boolean {
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

/** Throws at the first part of `value` that JSON would drop, change or guess at. */
function checkPlainJson(value: unknown, path: string, depth: number): void {
  if (value === null || typeof value === 'boolean') return;
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) refuse(path, 'must be a finite number');
    return;
  }
  if (typeof value === 'string') {
    if (!value.isWellFormed()) refuse(path, 'holds half of a surrogate pair, which is not text');
    return;
  }
  if (typeof value !== 'object') refuse(path, `is ${typeof value}, which JSON cannot hold`);
  if (depth === MAX_DEPTH) refuse(path, `is nested more than ${MAX_DEPTH} deep`);
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) checkPlainJson(value[i], `${path}[${i}]`, depth + 1);
    return;
  }
  if (!isPlainObject(value)) refuse(path, 'is not a plain object');
  for (const [key, inner] of Object.entries(value)) {
    const where = path === '' ? key : `${path}.${key}`;
    if (!key.isWellFormed()) refuse(path, 'has a field name that is not text');
    checkPlainJson(inner, where, depth + 1);
  }
}

/**
 * The one spelling of a JSON value, RFC 8785 (JSON Canonicalization Scheme).
 *
 * The library beneath drops `undefined` members as JSON.stringify does. Here they are refused, with
 * every other value that would not come back the same, so that what is signed is what was meant.
 *
 * @throws NotCanonicalError naming the part that has no canonical form
 */
export function canonicalText(value: unknown): string {
  checkPlainJson(value, '', 0);
  const text = canonicalize(value);
  if (text === undefined) throw new NotCanonicalError('The value has no canonical form.');
  return text;
}

/** The canonical text's UTF-8 bytes: what is hashed and signed. */
export const canonicalBytes = (value: unknown): Bytes => utf8(canonicalText(value));
