import { fields, oneOf, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Earlier training stated by mistake is taken back. `about` is the person it was stated of. */
export const earlierWithdrawn = defineKind({
  kind: 'earlier.withdrawn',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** id of the event that stated it */
    stated: UuidSchema,
    reason: oneOf('wrong-person', 'wrong-details', 'paper-not-found', 'asked'),
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person the paper is about' } : null,
});
