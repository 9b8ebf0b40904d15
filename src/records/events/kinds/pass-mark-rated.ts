import { z } from 'zod';
import { ContentIdSchema, count, fields, quantity } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * A trainer said how many of those who are only just good enough would get each part of a test right.
 * Given once for each round: what was said before the talk stays beside what was said after it.
 */
export const passMarkRated = defineKind({
  kind: 'pass-mark.rated',
  versions: [{ name: 'as first written' }],
  body: fields({
    blueprint: ContentIdSchema,
    blueprintVersion: count(1, 10_000),
    /** 1 before anybody has talked about it */
    round: count(1, 9),
    /** share of people, by the part of the test that was rated */
    ratings: z
      .record(ContentIdSchema, quantity(0, 1), { error: 'must give a share for each part' })
      .refine((ratings) => Object.keys(ratings).length > 0, {
        error: 'must rate at least one part',
      }),
  }),
  agrees: ({ about, org }) =>
    about === org ? null : { path: ['about'], message: 'must be the organisation' },
});
