import { z } from 'zod';
import { ContentIdSchema, count, fields, OpaqueIdSchema, oneOf, text } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody did the checks of the day at a machine. `about` is the bench. */
export const benchChecked = defineKind({
  kind: 'bench.checked',
  versions: [{ name: 'as first written' }],
  body: fields({
    bench: OpaqueIdSchema,
    /** the list gone through, and its version */
    list: ContentIdSchema,
    listVersion: count(1, 10_000),
    checks: z
      .array(
        fields({
          id: ContentIdSchema,
          result: oneOf('sound', 'not-sound', 'not-looked-at'),
          note: text(300).nullable(),
        }),
        { error: 'must list the checks done' },
      )
      .min(1, { error: 'must list at least one check' })
      .max(60, { error: 'must list at most 60 checks' }),
    /** what whoever checked says of the machine as a whole */
    verdict: oneOf('fit', 'not-fit'),
  }).superRefine((body, context) => {
    const bad = body.checks.find(({ result }) => result === 'not-sound');
    if (body.verdict === 'fit' && bad !== undefined) {
      context.addIssue({
        code: 'custom',
        path: ['verdict'],
        message: `must be not-fit, because ${bad.id} was not sound`,
      });
    }
  }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench checked' },
});
