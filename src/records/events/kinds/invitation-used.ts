import { fields, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** The link was used, once and for all. `about` is the person who came of it. */
export const invitationUsed = defineKind({
  kind: 'invitation.used',
  versions: [{ name: 'as first written' }],
  body: fields({
    invitation: OpaqueIdSchema,
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person who joined' } : null,
});
