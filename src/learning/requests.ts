import { z } from 'zod';

/** Most answers in one request; a device with more sends them in turns. */
export const MOST_AT_ONCE = 500;

const slug = z
  .string({ error: 'must be a name' })
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: 'must be small letters, figures and hyphens' })
  .max(80, { error: 'must be at most 80 characters' });

const AnswerSchema = z.strictObject(
  {
    id: z.string({ error: 'must be the id of an answer' }).regex(/^[a-z0-9:-]{8,170}$/, {
      error: 'must be 8 to 170 small letters, figures, colons and hyphens',
    }),
    lesson: slug,
    question: slug,
    right: z.boolean({ error: 'must be true or false' }),
    at: z.iso.datetime({ error: 'must be an instant in UTC, such as 2026-03-03T09:30:00.000Z' }),
  },
  { error: 'must be a group of fields: id, lesson, question, right, at' },
);

export const KeepSchema = z.strictObject(
  {
    /** whose answers the device says they are */
    person: z
      .string({ error: 'must be the person the answers belong to' })
      .min(1, { error: 'must be the person the answers belong to' })
      .max(100, { error: 'must be the person the answers belong to' }),
    answers: z
      .array(AnswerSchema, { error: 'must list answers' })
      .min(1, { error: 'must list at least 1 answer' })
      .max(MOST_AT_ONCE, { error: `must list at most ${MOST_AT_ONCE} answers` }),
  },
  { error: 'must be a group of fields: person, answers' },
);
