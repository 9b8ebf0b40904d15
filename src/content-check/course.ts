import type { Task } from '../assessment/index.ts';
import type { Bench } from '../bench/index.ts';
import type { WordFinder } from '../components/lesson/find-words.ts';
import type { LimitSet } from '../limits/index.ts';
import type { FactsSource } from './facts-source.ts';
import type { GlossarySource } from './glossary-source.ts';
import type { LessonSource } from './lesson-source.ts';
import type { QuestionsSource } from './questions-source.ts';
import type { PlainEnglish } from './trade-words.ts';

/** What the lessons draw on and this check does not read itself. */
export type Known = {
  readonly benches: ReadonlyMap<string, Bench>;
  readonly sets: ReadonlyMap<string, LimitSet>;
  readonly tasks: ReadonlyMap<string, Task>;
  /** addresses of the pages that are no lessons, without a slash at the end */
  readonly pages: ReadonlySet<string>;
  /** null when the list of frequent words is not installed */
  readonly english: PlainEnglish | null;
};

/** All content of the course, in every language, as written. */
export type Course = {
  readonly lessons: readonly LessonSource[];
  readonly questions: readonly QuestionsSource[];
  readonly glossary: readonly GlossarySource[];
  readonly facts: readonly FactsSource[];
  readonly known: Known;
};

/** One lesson with everything its rules need. */
export type LessonCase = {
  readonly lesson: LessonSource;
  readonly head: HeadFields;
  readonly bench: Bench | undefined;
  readonly sets: readonly LimitSet[];
  readonly questions: QuestionsSource | undefined;
  readonly words: ReadonlySet<string>;
  readonly facts: ReadonlyMap<string, { readonly seen: string }>;
  readonly lessonIds: ReadonlySet<string>;
  readonly findTerms: WordFinder;
  readonly known: Known;
};

/** The head of a lesson, as far as it can be read; its schema says what is missing. */
export type HeadFields = {
  readonly title: string;
  readonly about: string;
  readonly order: number | null;
  readonly after: readonly string[];
  readonly bench: string;
  readonly rules: readonly string[];
  readonly jobAid: {
    readonly title: string;
    readonly steps: readonly string[];
    readonly measures: readonly string[];
    readonly drawing: Readonly<Record<string, unknown>> | null;
  };
};

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const texts = (value: unknown): string[] =>
  Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
const record = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

export function readHead({ head }: LessonSource): HeadFields {
  const fields = record(head.value);
  const jobAid = record(fields['jobAid']);
  return {
    title: text(fields['title']),
    about: text(fields['about']),
    order: typeof fields['order'] === 'number' ? fields['order'] : null,
    after: texts(fields['after']),
    bench: text(fields['bench']),
    rules: texts(fields['rules']),
    jobAid: {
      title: text(jobAid['title']),
      steps: texts(jobAid['steps']),
      measures: texts(jobAid['measures']),
      drawing: jobAid['drawing'] === undefined ? null : record(jobAid['drawing']),
    },
  };
}
