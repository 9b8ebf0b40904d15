import { DateSchema, fields, NameHashSchema, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * Earlier training that a paper states and nobody here has seen. It counts for nothing: no unit, no work, no
 * leave. `about` is the person. What the training was called, who gave it and which paper it is stand outside
 * the log, so that they can be erased; `wordsHash` holds them to what was entered.
 */
export const earlierStated = defineKind({
  kind: 'earlier.stated',
  versions: [{ name: 'as first written' }],
  body: fields({
    machine: oneOf('saw-bench', 'other-saw', 'other-machine', 'general'),
    /** the day of the training */
    day: DateSchema,
    /** the last day the paper says it holds; null when it names none */
    until: DateSchema.nullable(),
    wordsHash: NameHashSchema,
  }),
  agrees: ({ about, body }) => {
    if (about === null)
      return { path: ['about'], message: 'must be the person the paper is about' };
    return body.until !== null && body.until < body.day
      ? { path: ['body', 'until'], message: 'must not be before the day of the training' }
      : null;
  },
});
