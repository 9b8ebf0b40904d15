import { z } from 'zod';
import { RoleSchema } from './viewer.ts';

/** Shortest password accepted, characters. Also printed beside the field. */
export const SHORTEST_PASSWORD = 12;
/** Longest password accepted, characters: beyond it a hash only costs time. */
export const LONGEST_PASSWORD = 128;

const LONGEST_NAME = 80;

const nameRule = `must be 1 to ${LONGEST_NAME} characters on one line`;

/** A person's or organisation's name: trimmed, one line, 1 to 80 characters. */
const NameSchema = z
  .string({ error: nameRule })
  .trim()
  .min(1, { error: nameRule })
  .max(LONGEST_NAME, { error: nameRule })
  // Control and format characters hide or reorder text on a printed proof.
  .regex(/^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]*$/u, { error: nameRule });

/** Compared in lower case, at most 254 characters (RFC 5321 path limit). */
export const EmailSchema = z
  .string({ error: 'must be an e-mail address like name@example.com' })
  .trim()
  .toLowerCase()
  .max(254, { error: 'must be at most 254 characters' })
  .pipe(z.email({ error: 'must be an e-mail address like name@example.com' }));

export const PasswordSchema = z
  .string({ error: `must be at least ${SHORTEST_PASSWORD} characters` })
  .min(SHORTEST_PASSWORD, { error: `must be at least ${SHORTEST_PASSWORD} characters` })
  .max(LONGEST_PASSWORD, { error: `must be at most ${LONGEST_PASSWORD} characters` });

export const PersonSchema = z.object({
  name: NameSchema,
  email: EmailSchema,
  password: PasswordSchema,
});
export type PersonInput = z.input<typeof PersonSchema>;

export const OrganisationSchema = z.object({
  organisation: NameSchema,
  ...PersonSchema.shape,
});
export type OrganisationInput = z.input<typeof OrganisationSchema>;

export const InvitationSchema = z.object({ role: RoleSchema, name: NameSchema });
export type InvitationInput = z.input<typeof InvitationSchema>;

/** What a sign-in form sends. The password is not held to today's length: it may be older than the rule. */
export const SignInSchema = z.object({
  email: EmailSchema,
  password: z
    .string({ error: 'must be filled in' })
    .min(1, { error: 'must be filled in' })
    .max(LONGEST_PASSWORD, { error: `must be at most ${LONGEST_PASSWORD} characters` }),
});
export type SignInInput = z.input<typeof SignInSchema>;
