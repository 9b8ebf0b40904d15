import { fields, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A link for a new password was used, and every session of its person ended. `about` is that person. */
export const resetLinkUsed = defineKind({
  kind: 'reset-link.used',
  versions: [{ name: 'as first written' }],
  body: fields({ link: OpaqueIdSchema }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the person whose link it was' },
});
