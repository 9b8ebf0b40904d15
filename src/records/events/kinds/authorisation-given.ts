import { fields } from '../../fields.ts';
import { AuthorisationSchema } from '../../statement/authorisation-schema.ts';
import { defineKind } from '../define-kind.ts';

/** Leave in writing to do named work on a named machine, until a day. `about` is who may. */
export const authorisationGiven = defineKind({
  kind: 'authorisation.given',
  versions: [{ name: 'as first written' }],
  body: fields({ statement: AuthorisationSchema }),
  agrees: ({ about, body: { statement }, by, id, org }) => {
    if (id !== statement.id) return { path: ['id'], message: 'must be the id in the statement' };
    if (by !== statement.by.person) {
      return { path: ['by'], message: 'must be the person the statement says gives it' };
    }
    if (about !== statement.who.person) {
      return { path: ['about'], message: 'must be the person named in the statement' };
    }
    return org === statement.org
      ? null
      : { path: ['org'], message: 'must be the organisation named in the statement' };
  },
});
