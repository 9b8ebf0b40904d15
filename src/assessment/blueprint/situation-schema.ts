import { z } from 'zod';
import { describeProblem, type Problem } from '../../bench/index.ts';
import { choice, group, slug, some, text, whole, yesNo } from './fields.ts';

const SourceSchema = group({
  document: text(200),
  clause: text(120).optional(),
  seen: choice(['primary', 'secondary', 'memory', 'practice']),
});

/** Something to do that belongs to the answer. */
const StepSchema = group({
  text: text(200),
  /** 1 is done first; steps with one number may be done in either order */
  place: whole(1, 12),
  /** leaving it out could cost a hand: then nothing else makes up for it */
  critical: yesNo().default(false),
  why: text(400),
});

/** Something people do that does not belong to it. */
const SlipSchema = group({
  text: text(200),
  /** doing it could cost a hand */
  critical: yesNo().default(false),
  why: text(400),
});

/** Something that goes wrong at a bench, and what to do about it in which order. */
export const SituationSchema = group({
  schema: z.literal('situation/1', { error: 'must be "situation/1"' }),
  id: slug(),
  version: whole(1, 10_000),
  title: text(80),
  /** what the person sees, hears and feels, and nothing of what to do */
  tells: text(600),
  steps: some(StepSchema, 'steps'),
  slips: some(SlipSchema, 'slips'),
  /** per cent of people at the end of training who give a step its place: an estimate */
  estimate: whole(5, 95),
  source: SourceSchema,
}).superRefine(({ steps, slips }, context) => {
  if (steps.length + slips.length > 12) {
    context.addIssue({
      code: 'custom',
      path: ['slips'],
      message: 'must make at most 12 with the steps',
    });
  }
});

export type Situation = z.infer<typeof SituationSchema>;

export type ReadSituation =
  | { readonly ok: true; readonly situation: Situation }
  | { readonly ok: false; readonly error: Problem };

/** A situation from a parsed file, or the first problem with it. Never throws. */
export function readSituation(value: unknown): ReadSituation {
  const parsed = SituationSchema.safeParse(value);
  if (parsed.success) return { ok: true, situation: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The situation') };
}
