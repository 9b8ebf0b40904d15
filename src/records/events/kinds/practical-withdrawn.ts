import { fields, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A sign-off no longer holds, from here on. `about` is the person it was about. */
export const practicalWithdrawn = defineKind({
  kind: 'practical.withdrawn',
  versions: [{ name: 'as first written' }],
  body: fields({
    signoff: UuidSchema,
    /** about the work or the machine; not about the person's health or private life */
    reason: text(300),
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person signed off' } : null,
});
