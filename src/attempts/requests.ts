import { z } from 'zod';
import { grant, type Outcome, refuse } from '../accounts/index.ts';
import { MoveSchema, SaidBeforehandListSchema } from '../assessment/index.ts';
import { describeProblem } from '../bench/index.ts';
import { ClaimsSchema } from '../grading/index.ts';

const token = z
  .string({ error: 'must be the token the bench came with' })
  .max(4000, { error: 'must be the token the bench came with' });

const actions = z
  .array(MoveSchema, { error: 'must list the actions done' })
  .max(5000, { error: 'must list at most 5000 actions' });

export const StartSchema = z.strictObject(
  {
    task: z
      .string({ error: 'must name a task' })
      .regex(/^[a-z0-9-]{1,60}$/, { error: 'must name a task' }),
  },
  { error: 'must be a group of fields: task' },
);

export const VerdictSchema = z.strictObject(
  { token, actions },
  { error: 'must be a group of fields: token, actions' },
);

export const HandInSchema = z.strictObject(
  {
    token,
    actions,
    claims: ClaimsSchema,
    /** left out by a page from before there were any */
    said: SaidBeforehandListSchema.optional(),
  },
  { error: 'must be a group of fields: token, actions, claims, said' },
);

/** A request body by its schema, or the refusal to answer with. */
export function readRequest<Schema extends z.ZodType>(
  schema: Schema,
  body: unknown,
): Outcome<z.output<Schema>> {
  const read = schema.safeParse(body);
  if (read.success) return grant(read.data);
  const { path, message } = describeProblem(read.error, 'The request');
  return refuse(400, path, message);
}
