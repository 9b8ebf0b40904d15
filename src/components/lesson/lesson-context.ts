import type { Bench, Measures } from '../../bench/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import type { Language } from '../../words/index.ts';
import type { Fact, GlossaryWord, LessonHead } from './lesson-schema.ts';

/** What the parts of one lesson share: the writer names it once, at the head of the lesson. */
export type LessonContext = {
  readonly id: string;
  readonly language: Language;
  readonly head: LessonHead;
  readonly bench: Bench;
  readonly measures: Measures;
  /** the sets a reader may choose from, first the one shown until they do */
  readonly rules: readonly LimitSet[];
  readonly words: ReadonlyMap<string, GlossaryWord>;
  readonly facts: ReadonlyMap<string, Fact>;
  /** ids of the questions the writer has placed in the text */
  readonly placed: ReadonlySet<string>;
  /** ids of all questions in the order a reader meets them */
  readonly asked: readonly string[];
  /** where the parts stand: limits and facts lead to their sources on the lesson's own page alone */
  readonly sheet: 'lesson' | 'job-aid';
};

// Keyed by the locals of one request, so that two pages being built never mix.
const contexts = new WeakMap<object, LessonContext>();

/** Called by the page before the lesson is shown. */
export function setLessonContext(locals: object, context: LessonContext): void {
  contexts.set(locals, context);
}

/** @throws when a lesson part is used outside a lesson page */
export function lessonContext(locals: object): LessonContext {
  const context = contexts.get(locals);
  if (context === undefined) throw new Error('A lesson part was used outside a lesson page.');
  return context;
}
