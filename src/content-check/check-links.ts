import { anchorOf } from '../components/lesson/heading-anchor.ts';
import type { LessonCase } from './course.ts';
import { type Flaw, problem } from './flaw.ts';
import type { LessonSource } from './lesson-source.ts';

/** Places of a lesson page that links may aim at: its headings and the table of rules. */
const anchorsOf = ({ blocks }: LessonSource): ReadonlySet<string> =>
  new Set([
    'rules',
    ...blocks.filter(({ kind }) => kind === 'heading').map(({ text }) => anchorOf(text)),
  ]);

/** A lesson's own links: to its headings, other lessons and job aids, words, tasks and pages. */
export function checkLinks(
  one: LessonCase,
  lessons: ReadonlyMap<string, LessonSource>,
): readonly Flaw[] {
  return one.lesson.links.flatMap(({ to, line }) => {
    const why = whyBroken(to, one, lessons);
    return why === null ? [] : [problem(one.lesson.file, line, `The link ${to} ${why}`)];
  });
}

function whyBroken(
  to: string,
  one: LessonCase,
  lessons: ReadonlyMap<string, LessonSource>,
): string | null {
  if (/^[a-z]+:|^\/\//i.test(to))
    return 'leads out of the site, which must work without a network; name the source in words.';
  const [path = '', anchor] = to.split('#');
  if (path === '')
    return anchorsOf(one.lesson).has(anchor ?? '') ? null : 'names no heading of this lesson.';
  if (!path.startsWith('/')) return 'must begin with / or #.';
  const plain = path.replace(/\/+$/, '') || '/';
  const [, id, sheet] = /^\/lessons\/([^/]+)(\/job-aid)?$/.exec(plain) ?? [];
  if (id !== undefined) {
    const lesson = lessons.get(id);
    if (lesson === undefined) return `names no lesson; there is no ${id}.`;
    if (anchor === undefined || sheet !== undefined) return null;
    return anchorsOf(lesson).has(anchor) ? null : `names no heading of the lesson ${id}.`;
  }
  const [, task] = /^\/bench\/([^/]+)$/.exec(plain) ?? [];
  if (task !== undefined)
    return one.known.tasks.has(task) ? null : `names no bench task; there is no ${task}.`;
  if (!one.known.pages.has(plain)) return 'names no page of the site.';
  if (plain === '/glossary' && anchor !== undefined && !anchor.startsWith('letter-'))
    return one.words.has(anchor) ? null : `names no word of the glossary; there is no ${anchor}.`;
  return null;
}
