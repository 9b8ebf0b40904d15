import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody other than who signed looked into an appeal. `about` is the person who appealed. */
export const appealSettled = defineKind({
  kind: 'appeal.settled',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** the event practical.answered that appeals */
    appeal: UuidSchema,
    /** `watch-again`: the practical is to be watched again by another trainer */
    outcome: oneOf('stands', 'watch-again'),
    reason: text(300),
  }),
  agrees: ({ about, by }) =>
    about !== null && about !== by
      ? null
      : {
          path: ['about'],
          message: 'must be the person who appealed, and nobody settles their own',
        },
});
