import { z } from 'zod';

const must = 'must be what the browser answered for the passkey';
const bytes = (most: number) =>
  z
    .string({ error: must })
    .min(1, { error: must })
    .max(most, { error: must })
    .regex(/^[A-Za-z0-9_-]+$/, { error: must });

const common = {
  id: bytes(1400),
  rawId: bytes(1400),
  type: z.literal('public-key', { error: must }),
  // what extensions answer is not read
  clientExtensionResults: z.unknown().transform(() => ({})),
};

/** The answer of a passkey that signs in (AuthenticationResponseJSON, WebAuthn Level 3, section 5.1.8). */
export const AssertionSchema = z.object(
  {
    ...common,
    response: z.object(
      {
        clientDataJSON: bytes(8_000),
        authenticatorData: bytes(8_000),
        signature: bytes(8_000),
      },
      { error: must },
    ),
  },
  { error: must },
);
export type Assertion = z.output<typeof AssertionSchema>;

/** The answer of a passkey just made (RegistrationResponseJSON, the same section). */
export const AttestationSchema = z.object(
  {
    ...common,
    response: z.object(
      {
        clientDataJSON: bytes(8_000),
        attestationObject: bytes(20_000),
        transports: z.array(z.string().max(20)).max(10).optional(),
      },
      { error: must },
    ),
  },
  { error: must },
);
export type Attestation = z.output<typeof AttestationSchema>;

/** Name of a passkey in one's own list. */
export const LONGEST_PASSKEY_NAME = 40;
