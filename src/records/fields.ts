import { z } from 'zod';
import { fromBase64Url, HASH_LENGTH } from './check/index.ts';

/*
 * Building blocks of every schema here. Each message finishes the sentence "FIELD ...", so that a
 * person is told the field and what it may be.
 */

/** An object with just these fields: a field we do not know is a slip until shown otherwise. */
export function fields<Shape extends z.ZodRawShape>(shape: Shape) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be given, as a group of fields',
  });
}

/** Text of 1 to `max` characters, with something to read in it. */
export function text(max: number) {
  const must = `must be text of 1 to ${max} characters`;
  return z
    .string({ error: must })
    .max(max, { error: must })
    .refine((value) => value.trim() !== '' && value.isWellFormed(), { error: must });
}

export function oneOf<const Words extends readonly [string, ...string[]]>(...words: Words) {
  return z.enum(words, { error: `must be one of: ${words.join(', ')}` });
}

/** A number from `min` to `max`, ends included. */
export function quantity(min: number, max: number, unit = '') {
  const must = `must be a number from ${min} to ${max}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error: must }).min(min, { error: must }).max(max, { error: must });
}

/** A whole number from `min` to `max`, ends included. */
export function count(min: number, max: number) {
  const must = `must be a whole number from ${min} to ${max}`;
  return z.int({ error: must }).min(min, { error: must }).max(max, { error: must });
}

function matching(pattern: RegExp, must: string) {
  return z.string({ error: must }).regex(pattern, { error: must });
}

/** UUID version 7, RFC 9562 section 5.7, in lower case: one spelling for one id. */
export const UuidSchema = matching(
  /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
  'must be a UUID of version 7 in lower case',
);

/** An id that tells nothing of whom it stands for: no address or name fits the pattern. */
export const OpaqueIdSchema = matching(
  /^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/,
  'must be an id of 1 to 64 letters, digits, - or _',
);

/** Id of a thing in content: a unit, a task, a limit set, a fault, a criterion. */
export const ContentIdSchema = matching(
  /^[A-Za-z0-9][A-Za-z0-9._/-]{0,79}$/,
  'must be an id of 1 to 80 letters, digits, dots, slashes or dashes',
);

/** Moment in UTC to the millisecond, in the one spelling that also sorts as text. */
export const InstantSchema = z
  .string({ error: 'must be a moment such as 2026-03-03T09:30:00.000Z' })
  .refine(
    (value) => {
      const time = Date.parse(value);
      return Number.isFinite(time) && new Date(time).toISOString() === value;
    },
    { error: 'must be a moment such as 2026-03-03T09:30:00.000Z' },
  );

/** Calendar date. */
export const DateSchema = z.iso.date({ error: 'must be a date such as 2026-03-03' });

/** SHA-256 of a name and its salt, as `nameHash` writes it. */
export const NameHashSchema = matching(
  /^sha256\$[0-9a-f]{64}$/,
  'must be sha256$ and 64 hexadecimal digits',
);

/** SHA-256 in hexadecimal. */
export const DigestSchema = matching(/^[0-9a-f]{64}$/, 'must be 64 hexadecimal digits');

function encoded(length: number, what: string) {
  const must = `must be ${what} in base 64 for addresses`;
  return z
    .string({ error: must })
    .refine((value) => fromBase64Url(value)?.length === length, { error: must });
}

/** Ed25519 signature, 64 bytes. */
export const SignatureSchema = encoded(64, 'a signature of 64 bytes');

/** Ed25519 public key as a JSON Web Key, RFC 8037 section 2: these three members and no more. */
export const PublicJwkSchema = fields({
  kty: z.literal('OKP', { error: 'must be "OKP"' }),
  crv: z.literal('Ed25519', { error: 'must be "Ed25519"' }),
  x: encoded(HASH_LENGTH, 'a key of 32 bytes'),
});

/** The private key as a JSON Web Key, as the site's key file holds it. */
export const PrivateJwkSchema = PublicJwkSchema.extend({
  d: encoded(HASH_LENGTH, 'a key of 32 bytes'),
});

/** Which versions of what were in force: engine, limit set, blueprint and so on, by name. */
export const VersionsSchema = z
  .record(text(40), text(120), { error: 'must name each part and its version' })
  .refine((value) => Object.keys(value).length > 0, { error: 'must name at least one version' });

export const RoleSchema = oneOf('trainee', 'trainer', 'employer');

/** Operations of a circular saw bench that are authorised one by one. */
export const WorkSchema = oneOf('rip', 'crosscut', 'bevel', 'deep', 'rebate', 'groove');
