import { fields, NameHashSchema, RoleSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody took a place in the organisation. `about` is that person. */
export const personJoined = defineKind({
  kind: 'person.joined',
  versions: [{ name: 'as first written' }],
  body: fields({
    role: RoleSchema,
    nameHash: NameHashSchema,
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person who joined' } : null,
});
