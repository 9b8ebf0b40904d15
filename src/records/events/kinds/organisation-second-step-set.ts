import { DateSchema, fields, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Whom the organisation asks for a second step at sign-in, and from when. `about` is the organisation. */
export const organisationSecondStepSet = defineKind({
  kind: 'organisation.second-step-set',
  versions: [{ name: 'as first written' }],
  body: fields({
    who: oneOf('nobody', 'trainers', 'trainers-and-employers'),
    from: DateSchema,
  }),
  agrees: ({ about, org }) =>
    about === org ? null : { path: ['about'], message: 'must be the organisation' },
});
