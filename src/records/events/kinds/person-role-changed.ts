import { fields, RoleSchema, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A person has another role from now on. `about` is that person; nobody changes their own. */
export const personRoleChanged = defineKind({
  kind: 'person.role-changed',
  versions: [{ name: 'as first written' }],
  body: fields({
    role: RoleSchema,
    reason: text(300),
  }),
  agrees: ({ about, by }) => {
    if (about === null)
      return { path: ['about'], message: 'must be the person whose role changes' };
    return about === by
      ? { path: ['by'], message: 'must be someone else: nobody changes their own role' }
      : null;
  },
});
