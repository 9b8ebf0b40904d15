import { fields, NameHashSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** The first event of an organisation. `about` is the organisation itself. */
export const organisationCreated = defineKind({
  kind: 'organisation.created',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** a workshop may bear its owner's name, so it is kept like a person's */
    nameHash: NameHashSchema,
  }),
  agrees: ({ about, org }) =>
    about === org ? null : { path: ['about'], message: 'must be the organisation created' },
});
