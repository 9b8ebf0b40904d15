import { z } from 'zod';
import { ContentIdSchema, count, fields, oneOf, UuidSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A trainer put a pass mark in force, from ratings that are named. A later one takes its place. */
export const passMarkAdopted = defineKind({
  kind: 'pass-mark.adopted',
  versions: [{ name: 'as first written' }],
  body: fields({
    blueprint: ContentIdSchema,
    blueprintVersion: count(1, 10_000),
    /** points of 100 that pass */
    mark: count(1, 100),
    method: oneOf('modified-angoff'),
    /** the events it was worked out from, the last of each trainer */
    ratings: z
      .array(UuidSchema, { error: 'must list the ratings it rests on' })
      .min(2, { error: 'must list at least 2 ratings' })
      .max(60, { error: 'must list at most 60 ratings' }),
  }),
  agrees: ({ about, org }) =>
    about === org ? null : { path: ['about'], message: 'must be the organisation' },
});
