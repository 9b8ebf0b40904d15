import { fields, oneOf, text, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** The person watched says, under their own sign-in, what they think of the result. `about` is that person. */
export const practicalAnswered = defineKind({
  kind: 'practical.answered',
  versions: [{ name: 'as first written' }],
  body: fields({
    signoff: UuidSchema,
    /** `appeals`: asks for somebody else to look at it again */
    answer: oneOf('agrees', 'disagrees', 'appeals'),
    /** about the work or the machine; needed unless the person agrees */
    words: text(500).nullable(),
  }),
  agrees: ({ about, body, by }) => {
    if (about !== by) return { path: ['about'], message: 'must be the person who answers' };
    return body.answer !== 'agrees' && body.words === null
      ? { path: ['body', 'words'], message: 'must say why, in 1 to 500 characters' }
      : null;
  },
});
