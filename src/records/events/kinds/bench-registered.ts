import { z } from 'zod';
import { BenchSchema } from '../../../bench/index.ts';
import { ContentIdSchema, fields, OpaqueIdSchema, text, WorkSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A machine of the workshop entered the register, or its entry is replaced by this one. */
export const benchRegistered = defineKind({
  kind: 'bench.registered',
  versions: [{ name: 'as first written' }],
  body: fields({
    /** id of the bench; `about` is the same */
    bench: OpaqueIdSchema,
    /** mark on the machine, such as AL-01 */
    asset: text(40),
    title: text(80),
    /** operations this bench may be used for */
    work: z
      .array(WorkSchema, { error: 'must list the work this bench is used for' })
      .min(1, { error: 'must list at least one kind of work' }),
    /** id of the limit set it is judged by */
    limits: ContentIdSchema,
    /** the bench as it stands: a whole bench/1 file */
    file: BenchSchema,
  }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench registered' },
});
