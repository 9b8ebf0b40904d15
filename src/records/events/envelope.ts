import { z } from 'zod';
import { count, fields, InstantSchema, OpaqueIdSchema, UuidSchema } from '../fields.ts';

/**
 * What every event carries around its body. No name, address or other personal detail: people are
 * opaque ids here, and their details stand outside the log, so that a person can be erased without
 * breaking it. A correction is a new event that names the old one.
 */
const shape = {
  /** made where the event was made, so that sending it twice is harmless */
  id: UuidSchema,
  kind: z.string({ error: 'must name a kind of event' }),
  /** version of the body */
  version: count(1, 1000),
  org: OpaqueIdSchema,
  /** by the clock of the device where it happened */
  at: InstantSchema,
  /** who did it */
  by: OpaqueIdSchema,
  /** the person, bench or organisation it is about; null when about none */
  about: OpaqueIdSchema.nullable(),
  body: z.record(z.string(), z.unknown(), { error: 'must be a group of fields' }),
};

/** An event on its way to the log. */
export const DraftEnvelopeSchema = fields(shape);

/** An event in the log. */
export const EnvelopeSchema = fields({
  ...shape,
  /** by the server's clock */
  received: InstantSchema,
});

export type DraftEnvelope = z.infer<typeof DraftEnvelopeSchema>;
export type Envelope = z.infer<typeof EnvelopeSchema>;
