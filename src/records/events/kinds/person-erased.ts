import { fields, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * Name, e-mail, salt and everything else about a person outside the log was erased. `about` is the opaque id,
 * which stands for nobody from here on. The log itself stays whole.
 */
export const personErased = defineKind({
  kind: 'person.erased',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** `asked`: by their own button; `asked-in-writing`: any other way; `period`: kept long enough */
    reason: oneOf('asked', 'asked-in-writing', 'period'),
  }),
  agrees: ({ about, by }) => {
    if (about === null) return { path: ['about'], message: 'must be the person erased' };
    return about === by ? { path: ['by'], message: 'must be somebody else' } : null;
  },
});
