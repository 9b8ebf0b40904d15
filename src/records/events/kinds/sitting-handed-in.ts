import { z } from 'zod';
import { count, fields, OpaqueIdSchema, oneOf, text, VersionsSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

const seconds = count(0, 100_000_000);

/**
 * What was done at a whole form, task by task, and never what was concluded from it. The shape of an
 * answer hangs on its `kind` and is read by the assessment.
 */
export const sittingHandedIn = defineKind({
  kind: 'sitting.handed-in',
  versions: [{ name: 'as first written' }],
  body: fields({
    attempt: OpaqueIdSchema,
    work: z
      .record(text(60), z.object({ kind: text(40) }).catchall(z.json()), {
        error: 'must hold an answer for each task',
      })
      .refine((work) => Object.keys(work).length <= 40, { error: 'must hold at most 40 answers' }),
    /** handed in by the person, or by the site once the time was over or the test itself was changed */
    ended: oneOf('handed-in', 'time-over', 'test-changed'),
    /** by the clock of the server: time that counted, and stretches without a word from the device */
    usedSeconds: seconds,
    awaySeconds: seconds,
    /** how often more time was asked for */
    extensions: count(0, 10_000),
    versions: VersionsSchema,
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the person who handed in' },
});
