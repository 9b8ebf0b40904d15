import { fields, oneOf, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Nothing signed with this key counts from here on. `about` is the person whose key it was. */
export const deviceKeyEnded = defineKind({
  kind: 'device-key.ended',
  versions: [{ name: 'as first written' }],
  body: fields({
    keyId: text(60),
    reason: oneOf('replaced', 'lost', 'stolen', 'left', 'other'),
  }),
  agrees: ({ about }) =>
    about === null ? { path: ['about'], message: 'must be the person whose key it was' } : null,
});
