import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { parse } from 'yaml';
import {
  LessonSchema,
  type Question,
  QuestionFileSchema,
} from '../../src/components/lesson/lesson-schema.ts';

/** The content folder as a writer sees it: lessons as files, not as built pages. */
export const CONTENT = resolve(import.meta.dirname, '../../content');

/** A part used in a lesson: its name and its attributes, `{...}` worked out as plain JavaScript values. */
export type UsedPart = {
  readonly name: string;
  readonly attributes: Readonly<Record<string, unknown>>;
};

const TAG = /<([A-Z]\w*)((?:\s+\w+(?:=(?:"[^"]*"|\{(?:[^{}]|\{[^{}]*\})*\}))?)*)\s*(\/?)>/g;
const ATTRIBUTE = /(\w+)=(?:"([^"]*)"|\{((?:[^{}]|\{[^{}]*\})*)\})/g;

export function readLesson(id: string, language = 'en') {
  const text = readFileSync(join(CONTENT, 'lessons', language, `${id}.mdx`), 'utf8');
  const [, front = '', body = ''] = /^---\n([\s\S]*?)\n---\n([\s\S]*)$/.exec(text) ?? [];
  const parts = [...body.matchAll(TAG)].map(
    ([, name = '', attributes = '']): UsedPart => ({
      name,
      attributes: Object.fromEntries(
        [...attributes.matchAll(ATTRIBUTE)].map(([, key, plain, code]) => [
          key,
          // a lesson's expressions are lists and records of plain values
          code === undefined ? plain : new Function(`return (${code})`)(),
        ]),
      ),
    }),
  );
  return { id, head: LessonSchema.parse(parse(front)), body, parts };
}

export const LESSON_IDS = readdirSync(join(CONTENT, 'lessons', 'en')).map((file) =>
  basename(file, '.mdx'),
);

export function readQuestions(id: string, language = 'en'): readonly Question[] {
  const text = readFileSync(join(CONTENT, 'questions', language, `${id}.yaml`), 'utf8');
  return QuestionFileSchema.parse(parse(text)).questions;
}
