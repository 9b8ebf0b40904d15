import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import {
  FactFileSchema,
  GlossaryFileSchema,
  LessonSchema,
  QuestionFileSchema,
} from './components/lesson/lesson-schema.ts';

// Benches, limits, faults, tasks and units are read by src/store/content-files.ts, for the server
// and the command line need them too; these four are pages. All but facts are kept by language: en/NAME.
export const collections = {
  lessons: defineCollection({
    loader: glob({ pattern: '*/*.mdx', base: './content/lessons' }),
    schema: LessonSchema,
  }),
  questions: defineCollection({
    loader: glob({ pattern: '*/*.yaml', base: './content/questions' }),
    schema: QuestionFileSchema,
  }),
  facts: defineCollection({
    loader: glob({ pattern: '*.yaml', base: './content/facts' }),
    schema: FactFileSchema,
  }),
  glossary: defineCollection({
    loader: glob({ pattern: '*/*.yaml', base: './content/glossary' }),
    schema: GlossaryFileSchema,
  }),
};
