import { fields, OpaqueIdSchema, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody was given a link for a new password. `about` is that person; the secret of the link is not here. */
export const resetLinkMade = defineKind({
  kind: 'reset-link.made',
  versions: [{ name: 'as first written' }],
  body: fields({
    link: OpaqueIdSchema,
    /** `everything`: passkeys, one-time codes and recovery codes go as well */
    clears: oneOf('password', 'everything'),
  }),
  agrees: ({ about, by }) =>
    about === null || about === by ? { path: ['about'], message: 'must be another person' } : null,
});
