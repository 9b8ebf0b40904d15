import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** What suspended an authorisation has been gone through with the person, at the machine. `about` is they. */
export const authorisationRefreshed = defineKind({
  kind: 'authorisation.refreshed',
  versions: [{ name: 'as first written' }],
  body: fields({
    authorisation: UuidSchema,
    /** `practical`: watched again and signed off; `talked-through`: shown and explained at the machine */
    how: oneOf('practical', 'talked-through'),
    /** the sign-off of that practical; null for a talk */
    signoff: UuidSchema.nullable(),
    note: text(300),
  }),
  agrees: ({ about, body, by }) => {
    if (about === null || about === by) {
      return { path: ['about'], message: 'must be the person authorised, who is somebody else' };
    }
    return (body.how === 'practical') === (body.signoff !== null)
      ? null
      : { path: ['body', 'signoff'], message: 'must be given for a practical and only for one' };
  },
});
