import { fields, OpaqueIdSchema, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A machine that was out of service may be used again. `about` is the bench. */
export const benchReturned = defineKind({
  kind: 'bench.returned',
  versions: [{ name: 'as first written' }],
  body: fields({
    bench: OpaqueIdSchema,
    /** what was done to it, and how it was found sound */
    done: text(300),
  }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench returned' },
});
