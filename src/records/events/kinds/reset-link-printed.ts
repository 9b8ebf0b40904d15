import { fields, OpaqueIdSchema, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * A link for a new password was printed on the machine the site runs on. Nobody was signed in: `by` is the
 * organisation, `about` the person the link is for; the secret of the link is not here.
 */
export const resetLinkPrinted = defineKind({
  kind: 'reset-link.printed',
  versions: [{ name: 'as first written' }],
  body: fields({
    link: OpaqueIdSchema,
    /** passkeys, one-time codes and recovery codes go as well */
    clears: oneOf('everything'),
  }),
  agrees: ({ about, by, org }) =>
    about === null || about === by || by !== org
      ? { path: ['by'], message: 'must be the organisation, and about a person' }
      : null,
});
