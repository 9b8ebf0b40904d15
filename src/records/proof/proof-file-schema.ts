import { z } from 'zod';
import { AUTHORISATION_PROOF_FORMAT, PROOF_FORMAT, publicKeyOfDid } from '../check/index.ts';

/**
 * What makes a file a proof at all. The rest is for `verifyProof`: a proof that was damaged is to be
 * called altered, not unreadable.
 */
export const ProofHeadSchema = z.looseObject(
  {
    format: z.enum([PROOF_FORMAT, AUTHORISATION_PROOF_FORMAT], {
      error: `must be "${PROOF_FORMAT}" or "${AUTHORISATION_PROOF_FORMAT}"`,
    }),
  },
  { error: 'must be a proof file, one JSON object' },
);

/** A signer to trust. */
export const TrustedSignerSchema = z
  .string({ error: 'must be a did:key' })
  .refine((did) => publicKeyOfDid(did) !== null, {
    error: 'must be the did:key of an Ed25519 key, beginning did:key:z6Mk',
  });
