import { fields, OpaqueIdSchema, RoleSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody was invited. Neither the name nor the secret of the link is here. */
export const invitationMade = defineKind({
  kind: 'invitation.made',
  versions: [{ name: 'as first written' }],
  body: fields({
    invitation: OpaqueIdSchema,
    role: RoleSchema,
  }),
  agrees: ({ about }) =>
    about === null ? null : { path: ['about'], message: 'must be null: nobody has joined yet' },
});
