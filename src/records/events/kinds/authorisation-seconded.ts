import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A second person looked at an authorisation and agrees, or does not. `about` is who may. */
export const authorisationSeconded = defineKind({
  kind: 'authorisation.seconded',
  versions: [{ name: 'as first written' }],
  body: fields({
    authorisation: UuidSchema,
    answer: oneOf('agrees', 'disagrees'),
    /** needed when they do not agree */
    note: text(300).nullable(),
  }),
  agrees: ({ about, body, by }) => {
    if (about === null || about === by) {
      return { path: ['about'], message: 'must be the person authorised, who is somebody else' };
    }
    return body.answer === 'disagrees' && body.note === null
      ? { path: ['body', 'note'], message: 'must say why, in 1 to 300 characters' }
      : null;
  },
});
