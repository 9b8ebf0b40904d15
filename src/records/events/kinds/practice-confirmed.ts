import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** The supervisor says whether a session was as it was noted. `about` is who practised. */
export const practiceConfirmed = defineKind({
  kind: 'practice.confirmed',
  versions: [{ name: 'as first written' }],
  body: fields({
    session: UuidSchema,
    answer: oneOf('yes', 'no'),
    note: text(300).nullable(),
  }),
  agrees: ({ about, by }) =>
    about !== null && about !== by
      ? null
      : { path: ['about'], message: 'must be the person who practised, who is somebody else' },
});
