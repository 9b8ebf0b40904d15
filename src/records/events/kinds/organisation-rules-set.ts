import { count, fields, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** The organisation's own intervals and whether a second person is needed. `about` is the organisation. */
export const organisationRulesSet = defineKind({
  kind: 'organisation.rules-set',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** calendar months a sign-off and an authorisation may stand */
    months: count(1, 60),
    /** calendar months without work at the bench after which an authorisation rests */
    breakMonths: count(1, 36),
    /** days before an end at which people are reminded */
    noticeDays: count(7, 180),
    /** what needs a second person */
    second: oneOf('nothing', 'authorisation', 'practical-and-authorisation'),
  }),
  agrees: ({ about, org }) =>
    about === org ? null : { path: ['about'], message: 'must be the organisation' },
});
