import { fields, SignatureSchema, text } from '../../fields.ts';
import { CosignSchema } from '../../statement/cosign-schema.ts';
import { defineKind } from '../define-kind.ts';

/**
 * A second trainer looked at a signed practical and signed that they agree, or that they do not. The
 * device's signature is over the canonical bytes of `statement`. `about` is the person watched.
 */
export const practicalCosigned = defineKind({
  kind: 'practical.cosigned',
  versions: [{ name: 'as first written' }],
  body: fields({
    statement: CosignSchema,
    /** the enrolled device key that signed */
    keyId: text(60),
    deviceSignature: SignatureSchema,
  }),
  agrees: ({ about, body, by, id, org }) => {
    const { statement } = body;
    if (id !== statement.id) {
      return { path: ['id'], message: 'must be the id named in the statement' };
    }
    if (by !== statement.trainer.person) {
      return { path: ['by'], message: 'must be the trainer named in the statement' };
    }
    if (about === null || about === by) {
      return { path: ['about'], message: 'must be the person watched, who is somebody else' };
    }
    return org === statement.org
      ? null
      : { path: ['org'], message: 'must be the organisation named in the statement' };
  },
});
