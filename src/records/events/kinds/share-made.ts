import { z } from 'zod';
import { fields, InstantSchema, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody made a link that shows the records to an inspector. Neither its secret nor its purpose is here. */
export const shareMade = defineKind({
  kind: 'share.made',
  versions: [{ name: 'as first written' }],
  body: fields({
    link: OpaqueIdSchema,
    /** from then on it opens nothing */
    endsAt: InstantSchema,
    /** whom it shows; an empty list is everybody */
    people: z
      .array(OpaqueIdSchema, {
        error: 'must list the people shown, which may be none for everybody',
      })
      .max(500, { error: 'must list at most 500 people' }),
    /** the bench it shows; null for all of them */
    bench: OpaqueIdSchema.nullable(),
  }),
  agrees: ({ about }) =>
    about === null ? null : { path: ['about'], message: 'must be null: a link is about nobody' },
});
