import { fields, OpaqueIdSchema, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A machine is not to be used from here on, until it is returned. `about` is the bench. */
export const benchTakenOut = defineKind({
  kind: 'bench.taken-out',
  versions: [{ name: 'as first written' }],
  body: fields({ bench: OpaqueIdSchema, reason: text(300) }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench taken out' },
});
