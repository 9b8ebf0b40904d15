import { z } from 'zod';
import { describeProblem, type Problem } from '../../bench/index.ts';

const sentence = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

const slug = () => {
  const must = 'must be lower-case words joined by hyphens';
  return z.string({ error: must }).regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must });
};

const YEARS = 'must be whole years from 10 to 99, or null where no age is known';

const SourceSchema = z.strictObject({
  document: sentence(120),
  clause: sentence(80).optional(),
  year: z
    .int({ error: 'must be a year from 1800 to 2200' })
    .min(1800, { error: 'must be a year from 1800 to 2200' })
    .max(2200, { error: 'must be a year from 1800 to 2200' })
    .optional(),
  seen: z.enum(['primary', 'secondary', 'memory', 'practice'], {
    error: 'must be one of: primary, secondary, memory, practice',
  }),
});

/** A rule on age, `ages/1`, for the limit sets it names. Messages finish the sentence "FIELD ...". */
export const AgeRuleSchema = z
  .strictObject({
    schema: z.literal('ages/1', { error: 'must be "ages/1"' }),
    id: slug(),
    title: sentence(80),
    /** ids of limit sets it goes with */
    sets: z.array(slug(), { error: 'must list ids of limit sets' }).max(40, {
      error: 'must list at most 40 limit sets',
    }),
    /** the rule for every set that no file names */
    otherwise: z.boolean({ error: 'must be true or false' }),
    /** years from which a person is old enough; null where no age is known */
    least: z.int({ error: YEARS }).min(10, { error: YEARS }).max(99, { error: YEARS }).nullable(),
    /** when somebody younger may work, always under supervision; null where nobody may or no age is known */
    younger: z.strictObject({ only: sentence(300) }).nullable(),
    /** the question whoever gives an authorisation has to answer */
    ask: sentence(300),
    source: SourceSchema.nullable(),
  })
  .refine(({ least, source }) => (least === null) === (source === null), {
    path: ['source'],
    error: 'must be given for an age and only for one',
  })
  .refine(({ least, source }) => least === null || source?.seen !== 'memory', {
    path: ['source', 'seen'],
    error: 'must not be memory: an age known from memory decides nothing',
  })
  .refine(({ least, younger }) => least !== null || younger === null, {
    path: ['younger'],
    error: 'must be null where no age is known',
  });

export type AgeRule = z.infer<typeof AgeRuleSchema>;

export type ReadAges =
  | { readonly ok: true; readonly rule: AgeRule }
  | { readonly ok: false; readonly error: Problem };

/** A rule on age from a parsed file, or the first problem with it. Never throws. */
export function readAges(value: unknown): ReadAges {
  const parsed = AgeRuleSchema.safeParse(value);
  if (parsed.success) return { ok: true, rule: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The file on age') };
}
