import { ContentIdSchema, fields, OpaqueIdSchema, oneOf } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A trainer chose a blueprint for somebody. `about` is who is to sit it. */
export const sittingSet = defineKind({
  kind: 'sitting.set',
  versions: [{ name: 'as first written' }],
  body: fields({
    setting: OpaqueIdSchema,
    blueprint: ContentIdSchema,
    /** when the result is shown: at once, or when a trainer lets it out */
    feedback: oneOf('now', 'later'),
  }),
  agrees: ({ about }) =>
    about !== null ? null : { path: ['about'], message: 'must name who is to sit it' },
});
