import { z } from 'zod';
import {
  FIELD_RULES,
  LONGEST_EMAIL,
  LONGEST_NAME,
  LONGEST_PASSWORD,
  SHORTEST_PASSWORD,
} from './field-rules.ts';
import { RoleSchema } from './viewer.ts';

const nameRule = FIELD_RULES.name.says;

/** A person's or organisation's name: trimmed, one line, 1 to 80 characters. */
export const NameSchema = z
  .string({ error: nameRule })
  .trim()
  .min(1, { error: nameRule })
  .max(LONGEST_NAME, { error: nameRule })
  // Control and format characters hide or reorder text on a printed proof.
  .regex(/^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]*$/u, { error: nameRule });

/** Compared in lower case, at most 254 characters (RFC 5321 path limit). */
export const EmailSchema = z
  .string({ error: FIELD_RULES.email.says })
  .trim()
  .toLowerCase()
  .max(LONGEST_EMAIL, { error: FIELD_RULES.emailLong.says })
  .pipe(z.email({ error: FIELD_RULES.email.says }));

const PasswordSchema = z
  .string({ error: FIELD_RULES.passwordShort.says })
  .min(SHORTEST_PASSWORD, { error: FIELD_RULES.passwordShort.says })
  .max(LONGEST_PASSWORD, { error: FIELD_RULES.passwordLong.says });

export const NewPasswordSchema = z.object({ password: PasswordSchema });

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
    .string({ error: FIELD_RULES.filled.says })
    .min(1, { error: FIELD_RULES.filled.says })
    .max(LONGEST_PASSWORD, { error: FIELD_RULES.passwordLong.says }),
});
export type SignInInput = z.input<typeof SignInSchema>;
