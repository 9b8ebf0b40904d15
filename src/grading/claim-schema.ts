import { z } from 'zod';
import { FAULT_PARTS, REMEDY_IDS } from '../limits/index.ts';

const faultId = z
  .string({ error: 'must be the id of a fault' })
  .regex(/^[a-z0-9-]{1,60}$/, { error: 'must be the id of a fault' });

/** What a person says is wrong with a bench, and what they would do about it. */
export const ClaimSchema = z.strictObject(
  {
    part: z.enum(FAULT_PARTS, { error: `must be one of: ${FAULT_PARTS.join(', ')}` }),
    fault: faultId,
    remedy: z.enum(REMEDY_IDS, { error: `must be one of: ${REMEDY_IDS.join(', ')}` }),
  },
  { error: 'must be a claim: part, fault and remedy' },
);

/** All claims of one attempt. */
export const ClaimsSchema = z
  .array(ClaimSchema, { error: 'must be a list of claims' })
  .max(200, { error: 'must list at most 200 claims' });

export type Claim = z.infer<typeof ClaimSchema>;
