import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** An authorisation rests from here on, until it is refreshed. `about` is who it was given to. */
export const authorisationSuspended = defineKind({
  kind: 'authorisation.suspended',
  versions: [{ name: 'as first written' }],
  body: fields({
    authorisation: UuidSchema,
    cause: oneOf('near-miss', 'machine-change', 'guard-change', 'long-break', 'other'),
    /** about the work or the machine; not about the person's health or private life */
    reason: text(300),
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person authorised' } : null,
});
