import { z } from 'zod';
import { PART_LABELS } from '../../drawing/index.ts';

/** Front matter of a lesson, and the files of questions and trade words that go with it. */

const text = (most: number) =>
  z
    .string({ error: `must be text of at most ${most} characters` })
    .min(1, { error: 'must not be empty' })
    .max(most, { error: `must be at most ${most} characters` });

const slug = z
  .string({ error: 'must be a name' })
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: 'must be small letters, figures and hyphens' });

const list = <Item extends z.ZodType>(item: Item, least: number, most: number) =>
  z
    .array(item, { error: 'must be a list' })
    .min(least, { error: `must list at least ${least}` })
    .max(most, { error: `must list at most ${most}` });

/** A drawing as a writer asks for it outside the text of a lesson. */
const DrawingSchema = z.strictObject(
  {
    view: z.enum(['side', 'end', 'plan', 'knife', 'teeth'], {
      error: 'must be side, end, plan, knife or teeth',
    }),
    crop: z.enum(['whole', 'above-table'], { error: 'must be whole or above-table' }).optional(),
    title: text(120),
    alt: text(600),
    /** measures and sizes of src/drawing/measures.ts */
    dimensions: list(text(60), 0, 8).optional(),
    /** numbered parts with their words */
    labels: z.record(z.string(), text(120), { error: 'must be a group of words' }).optional(),
    /** another bench of content/benches; the lesson's own when left out */
    bench: slug.optional(),
  },
  { error: 'must be a drawing: view, title, alt' },
);
export type AskedDrawing = z.infer<typeof DrawingSchema>;

export const LessonSchema = z.strictObject({
  title: text(80),
  /** one sentence for the list of lessons */
  about: text(200),
  /** place in the course, from 1 */
  order: z.int({ error: 'must be a whole number' }).min(1).max(99),
  /** ids of the lessons to do first */
  after: list(slug, 0, 8).default([]),
  /** whose lesson it is */
  who: z
    .enum(['trainee', 'trainer', 'employer'], { error: 'must be trainee, trainer or employer' })
    .default('trainee'),
  /** minutes a careful reader needs, questions included */
  minutes: z.int({ error: 'must be a whole number' }).min(1).max(120),
  /** file in content/benches every drawing and figure is taken from */
  bench: slug,
  /** limit sets a reader may choose from; the first is shown until they do */
  rules: list(slug, 1, 12),
  /** the sheet for the wall: what to do in order, then what to measure */
  jobAid: z.strictObject({
    title: text(80),
    steps: list(text(200), 3, 10),
    /** measures, in the order they are taken; none where nothing is measured */
    measures: list(text(60), 0, 10),
    drawing: DrawingSchema,
  }),
});
export type LessonHead = z.infer<typeof LessonSchema>;

const option = z.strictObject({ text: text(200), why: text(300) });

const asked = {
  id: slug,
  /** `{knife.thickness}` is filled in from the lesson's bench */
  ask: text(500),
  /** shown with the right answer, whatever was given */
  because: text(500),
};

export const QuestionSchema = z.discriminatedUnion('kind', [
  /** one of several is right */
  z.strictObject({
    ...asked,
    kind: z.literal('choice'),
    options: list(option.extend({ right: z.boolean().default(false) }), 3, 6),
  }),
  /** any number are right */
  z.strictObject({
    ...asked,
    kind: z.literal('several'),
    options: list(option.extend({ right: z.boolean().default(false) }), 3, 8),
  }),
  /** put into order; written here in the right one */
  z.strictObject({ ...asked, kind: z.literal('order'), steps: list(option, 3, 8) }),
  /** a number with its unit, worked out from the bench when the page is built */
  z.strictObject({
    ...asked,
    kind: z.literal('number'),
    /** a measure, field or working of the bench, or a sum of them */
    answer: text(160),
    /** how far off still counts, in the unit of the answer */
    within: z.number({ error: 'must be a number' }).min(0.001).max(1000),
    bench: slug.optional(),
  }),
  /** which right side belongs to which left side */
  z.strictObject({
    ...asked,
    kind: z.literal('match'),
    pairs: list(z.strictObject({ left: text(200), right: text(200), why: text(300) }), 3, 6),
  }),
  /** a place on a drawing */
  z.strictObject({
    ...asked,
    kind: z.literal('mark'),
    drawing: DrawingSchema.omit({ dimensions: true, labels: true }),
    target: z.union(
      [z.strictObject({ part: z.enum(PART_LABELS) }), z.strictObject({ dimension: text(60) })],
      { error: 'must be { part } or { dimension }' },
    ),
    /** mm off that still counts */
    within: z.number({ error: 'must be a number' }).min(0).max(200),
  }),
]);
export type Question = z.infer<typeof QuestionSchema>;

export const QuestionFileSchema = z
  .strictObject({ questions: list(QuestionSchema, 1, 60) })
  .superRefine(({ questions }, context) => {
    const seen = new Set<string>();
    questions.forEach((question, i) => {
      const report = (message: string) =>
        context.addIssue({ code: 'custom', path: ['questions', i], message });
      if (seen.has(question.id)) report(`uses the id ${question.id} twice`);
      seen.add(question.id);
      if (question.kind === 'match') {
        const sides = new Set(question.pairs.map((pair) => pair.right));
        if (sides.size < question.pairs.length) report('must have no right side twice');
      }
      if (question.kind !== 'choice' && question.kind !== 'several') return;
      const right = question.options.filter((one) => one.right).length;
      if (question.kind === 'choice' && right !== 1) report('must have exactly one right option');
      if (question.kind === 'several' && right === 0) report('must have a right option');
    });
  });

const WordSchema = z.strictObject({
  /** as it is written in a sentence */
  term: text(60),
  /** one or two plain sentences */
  meaning: text(300),
  /** other names for the same thing */
  also: list(text(60), 1, 6).optional(),
  /** ids of words to read next */
  see: list(slug, 1, 6).optional(),
  /** the word has an everyday sense too: it is linked only where the writer puts <Term> */
  link: z.literal('by hand', { error: 'must be by hand, or left out' }).optional(),
});

/** One file of trade words on one subject: id to word. */
export const GlossaryFileSchema = z.strictObject({
  words: z.record(slug, WordSchema, { error: 'must be a group of words' }),
});
export type GlossaryWord = z.infer<typeof WordSchema> & { readonly id: string };

const FactSchema = z.strictObject({
  value: z.union([z.number(), text(40)], { error: 'must be a number or a short text' }),
  unit: text(20).optional(),
  /** what the number is of, in one sentence */
  says: text(300),
  source: z.strictObject({
    title: text(200),
    clause: z.string().max(120).optional(),
    year: z.int({ error: 'must be a year' }).min(1700).max(2100).optional(),
    seen: z.enum(['primary', 'secondary', 'memory', 'practice'], {
      error: 'must be primary, secondary, memory or practice',
    }),
  }),
});

/** One file of published numbers that are no limits: id to fact. */
export const FactFileSchema = z.strictObject({
  facts: z.record(slug, FactSchema, { error: 'must be a group of facts' }),
});
export type Fact = z.infer<typeof FactSchema> & { readonly id: string };
