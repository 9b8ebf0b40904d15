import { fields, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** An authorisation no longer holds, for good. `about` is who it was given to. */
export const authorisationEnded = defineKind({
  kind: 'authorisation.ended',
  versions: [{ name: 'as first written' }],
  body: fields({ authorisation: UuidSchema, reason: text(300) }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person authorised' } : null,
});
