import { fields, SignatureSchema, text, UuidSchema } from '../../fields.ts';
import { StatementSchema } from '../../statement/statement-schema.ts';
import { defineKind } from '../define-kind.ts';

/**
 * A trainer signed what they watched at the machine. The device's signature is over the canonical
 * bytes of `statement`, so a statement is never migrated: a later version of it is read beside
 * this one.
 */
export const practicalSigned = defineKind({
  kind: 'practical.signed',
  versions: [{ name: 'as first written' }],
  body: fields({
    signoff: UuidSchema,
    statement: StatementSchema,
    /** the enrolled device key that signed */
    keyId: text(60),
    deviceSignature: SignatureSchema,
  }),
  agrees: ({ about, body, by, id, org }) => {
    const { statement } = body;
    if (body.signoff !== statement.signoff) {
      return { path: ['body', 'signoff'], message: 'must be the sign-off named in the statement' };
    }
    // The log takes an id once, so a statement cannot be entered twice.
    if (id !== statement.signoff) {
      return { path: ['id'], message: 'must be the sign-off named in the statement' };
    }
    if (by !== statement.trainer.person) {
      return { path: ['by'], message: 'must be the trainer named in the statement' };
    }
    if (about !== statement.who.person) {
      return { path: ['about'], message: 'must be the person named in the statement' };
    }
    return org === statement.org
      ? null
      : { path: ['org'], message: 'must be the organisation named in the statement' };
  },
});
