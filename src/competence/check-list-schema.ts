import { z } from 'zod';
import { describeProblem, isMeasureId, type MeasureId, type Problem } from '../bench/index.ts';
import { FAULT_PARTS } from '../limits/index.ts';

/** Messages finish the sentence "FIELD ...". */
const sentence = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

const slug = () => {
  const must = 'must be lower-case words joined by hyphens, at most 60 characters';
  return z
    .string({ error: must })
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must })
    .max(60, { error: must });
};

/** Where a check comes from: a document, or common practice in the trade, which has none. */
const CheckSourceSchema = z
  .strictObject({
    document: sentence(200).optional(),
    clause: sentence(120).optional(),
    year: z.int({ error: 'must be a year' }).min(1900).max(2100).optional(),
    seen: z.enum(['primary', 'secondary', 'memory', 'practice'], {
      error: 'must be one of: primary, secondary, memory, practice',
    }),
  })
  .refine(({ seen, document }) => (seen === 'practice') === (document === undefined), {
    error: 'must name a document, or be seen: practice and name none',
  });

/** One thing looked at or tried, answered sound, not sound or not looked at. */
const CheckSchema = z.strictObject({
  id: slug(),
  part: z.enum(FAULT_PARTS, { error: `must be one of: ${FAULT_PARTS.join(', ')}` }),
  /** what is so when it is sound */
  ask: sentence(240),
  /** how to find out */
  how: sentence(240),
  /** ids of the fault catalogue that this check is to find */
  faults: z
    .array(slug(), { error: 'must be a list of fault ids' })
    .min(1, { error: 'must name at least one fault' })
    .max(20, { error: 'must name at most 20 faults' }),
  /** the measures whose limits in force at the machine are shown beside the check */
  figures: z
    .array(
      z.custom<MeasureId>((value) => typeof value === 'string' && isMeasureId(value), {
        error: 'must be the id of a bench measure, such as arbor.runDown',
      }),
      { error: 'must be a list of measures' },
    )
    .default([]),
  source: CheckSourceSchema,
});

/** A list of checks gone through at a machine, `check-list/1`. */
export const CheckListSchema = z
  .strictObject({
    schema: z.literal('check-list/1', { error: 'must be "check-list/1"' }),
    id: slug(),
    /** raised whenever a check changes its meaning; records keep the version they used */
    version: z.int({ error: 'must be a whole number from 1' }).min(1),
    title: sentence(80),
    about: sentence(300),
    checks: z
      .array(CheckSchema, { error: 'must be a list of checks' })
      .min(1, { error: 'must list at least one check' })
      .max(60, { error: 'must list at most 60 checks' }),
  })
  .superRefine(({ checks }, context) => {
    const ids = checks.map(({ id }) => id);
    const twice = ids.find((id, i) => ids.indexOf(id) !== i);
    if (twice !== undefined) {
      context.addIssue({
        code: 'custom',
        path: ['checks'],
        message: `must not use the id ${twice} twice`,
      });
    }
  });

export type CheckList = z.infer<typeof CheckListSchema>;
export type Check = CheckList['checks'][number];

export type ReadCheckList =
  | { readonly ok: true; readonly list: CheckList }
  | { readonly ok: false; readonly error: Problem };

/** A list of checks from a parsed file, or the first problem with it. Never throws. */
export function readCheckList(value: unknown): ReadCheckList {
  const parsed = CheckListSchema.safeParse(value);
  if (parsed.success) return { ok: true, list: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The check list') };
}
