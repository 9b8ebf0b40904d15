import { z } from 'zod';
import { fields, InstantSchema, OpaqueIdSchema, oneOf, text, WorkSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * Something went wrong at a machine, or nearly. It suspends the authorisations of those at the bench
 * until they are refreshed. `about` is the bench.
 */
export const nearMissReported = defineKind({
  kind: 'near-miss.reported',
  versions: [{ name: 'as first written' }],
  body: fields({
    bench: OpaqueIdSchema,
    /** when it happened */
    happenedAt: InstantSchema,
    work: WorkSchema.nullable(),
    /** those who were working at the bench; empty when nobody says */
    people: z
      .array(OpaqueIdSchema, { error: 'must list who was at the bench, which may be nobody' })
      .max(10, { error: 'must list at most 10 people' }),
    hurt: oneOf('nobody', 'somebody'),
    /** about the work and the machine; not about anybody's injury or health */
    what: text(500),
  }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench' },
});
