import { fields, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody changed how they themselves sign in. Nothing of what they sign in with is here. */
export const signInChanged = defineKind({
  kind: 'sign-in.changed',
  versions: [{ name: 'as first written' }],
  body: fields({
    what: oneOf(
      'password',
      'codes-set-up',
      'codes-removed',
      'passkey-added',
      'passkey-removed',
      'recovery-made',
      'recovery-used',
    ),
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the person who changed it' },
});
