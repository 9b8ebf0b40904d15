import { fromBase64Url, keyIdOf } from '../../check/index.ts';
import { fields, oneOf, PublicJwkSchema, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A person's device made a signing key, and its public half is known from here on. */
export const deviceKeyEnrolled = defineKind({
  kind: 'device-key.enrolled',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** the public key itself, as Multikey */
    keyId: text(60),
    publicKey: PublicJwkSchema,
    /** sort of device; not its given name, which often holds its owner's */
    label: oneOf('tablet', 'phone', 'laptop', 'desktop', 'other'),
  }).superRefine((body, context) => {
    const key = fromBase64Url(body.publicKey.x);
    if (key === null || keyIdOf(key) !== body.keyId) {
      context.addIssue({ code: 'custom', path: ['keyId'], message: 'must be the id of publicKey' });
    }
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the person whose device it is' },
});
