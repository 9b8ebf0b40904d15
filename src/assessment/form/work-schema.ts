import { z } from 'zod';
import { type Action, ActionSchema } from '../../bench/index.ts';
import { ClaimSchema } from '../../grading/index.ts';

/** How sure a person says to be, and the chance of being right that goes with the word. */
export const CONFIDENCE = { guess: 0.5, 'fairly-sure': 0.75, certain: 0.95 } as const;
export type Confidence = keyof typeof CONFIDENCE;
const CONFIDENCE_WORDS = Object.keys(CONFIDENCE) as [Confidence, ...Confidence[]];
const confidence = z.enum(CONFIDENCE_WORDS, {
  error: `must be one of: ${CONFIDENCE_WORDS.join(', ')}`,
});

const optionId = z
  .string({ error: 'must be the id of a choice' })
  .regex(/^[a-z0-9-]{1,60}$/, { error: 'must be the id of a choice' });

/** Something taken from the rack and put on the bench. */
export type Fit = {
  readonly do: 'fit';
  readonly what: 'blade' | 'knife' | 'insert';
  readonly id: string;
};
/** One thing done while setting a bench. */
export type Move = Action | Fit;

const FitSchema = z.strictObject({
  do: z.literal('fit'),
  what: z.enum(['blade', 'knife', 'insert'], { error: 'must be one of: blade, knife, insert' }),
  id: optionId,
});
const isFit = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'do' in value && value.do === 'fit';

/** One or the other by what it says it does, so that a slip is told of the right one. */
export const MoveSchema: z.ZodType<Move> = z.unknown().transform((value, context) => {
  const read = (isFit(value) ? FitSchema : ActionSchema).safeParse(value);
  if (read.success) return read.data;
  for (const issue of read.error.issues) {
    context.issues.push({ ...issue, input: value } as z.core.$ZodRawIssue);
  }
  return z.NEVER;
});

const most = (count: number, things: string) => ({ error: `must list at most ${count} ${things}` });
const MOVES = 5000;

export const FindingSchema = ClaimSchema.extend({ confidence });
export type Finding = z.infer<typeof FindingSchema>;

const FindAnswer = z.strictObject({
  kind: z.literal('find'),
  actions: z
    .array(ActionSchema, { error: 'must list the actions done' })
    .max(MOVES, most(MOVES, 'actions')),
  findings: z
    .array(FindingSchema, { error: 'must list the findings' })
    .max(200, most(200, 'findings')),
});
const SetAnswer = z.strictObject({
  kind: z.literal('set'),
  moves: z
    .array(MoveSchema, { error: 'must list the moves made' })
    .max(MOVES, most(MOVES, 'moves')),
});
const chosen = optionId.nullable();
const PlanAnswer = z.strictObject({
  kind: z.literal('plan'),
  /** null: not chosen */
  stance: chosen,
  stick: chosen,
  end: chosen,
});
const ReactAnswer = z.strictObject({
  kind: z.literal('react'),
  /** what the person would do, in order */
  steps: z.array(optionId, { error: 'must list the steps' }).max(12, most(12, 'steps')),
});
const LimitAnswer = z.strictObject({
  kind: z.literal('limit'),
  /** the figure, in the unit asked for; null where readings are sorted, or not answered */
  value: z
    .number({ error: 'must be a number' })
    .min(-1e6, { error: 'must be a number from -1000000 to 1000000' })
    .max(1e6, { error: 'must be a number from -1000000 to 1000000' })
    .nullable(),
  /** the readings said to meet the limit */
  within: z.array(optionId, { error: 'must list readings' }).max(8, most(8, 'readings')),
});

export const AnswerSchema = z.discriminatedUnion(
  'kind',
  [FindAnswer, SetAnswer, PlanAnswer, ReactAnswer, LimitAnswer],
  { error: 'must be one of the kinds: find, set, plan, react, limit' },
);
export type Answer = z.infer<typeof AnswerSchema>;
export type AnswerOf<Kind extends Answer['kind']> = Extract<Answer, { kind: Kind }>;

/** What somebody did at a whole form, task by task. A task left out was not answered. */
export const WorkSchema = z.record(optionId, AnswerSchema, {
  error: 'must hold an answer for each task',
});
export type Work = Readonly<z.infer<typeof WorkSchema>>;
