import type { Entry } from '../../panels/search/index.ts';
import { loadLimitSets } from '../../store/content-files.ts';
import { type Language, pathIn } from '../../words/index.ts';
import { splitText } from '../lesson/fill-text.ts';
import { anchorOf } from '../lesson/heading-anchor.ts';
import type { LessonContext } from '../lesson/lesson-context.ts';
import type { GlossaryWord } from '../lesson/lesson-schema.ts';
import { type Lesson, loadContext, loadLessons, loadWords } from '../lesson/load-lesson.ts';
import { compareSets } from '../limits/compare-sets.ts';
import { rowAnchor, USUAL_SETS } from '../limits/limit-rows.ts';
import { lessonSections } from './lesson-sections.ts';
import { holdPieces, shownFact, shownFigure, shownLimit } from './shown-figures.ts';

/** Everything that can be found in a language, without an account. */
export async function searchEntries(language: Language): Promise<{
  readonly entries: readonly Entry[];
  readonly names: readonly (readonly string[])[];
}> {
  const lessons = await loadLessons(language);
  const words = [...(await loadWords(language)).values()];
  const fromLessons = await Promise.all(lessons.map(lessonEntries));
  return {
    entries: [
      ...fromLessons.flat(),
      ...[...words.map(wordEntry), ...limitEntries()].map((entry) => ({
        ...entry,
        href: pathIn(language, entry.href),
      })),
    ],
    names: words.map(({ term, also = [] }) => [term, ...also]),
  };
}

async function lessonEntries(lesson: Lesson): Promise<Entry[]> {
  const context = await loadContext(lesson);
  const { title, about, jobAid } = lesson.head;
  // a lesson not yet translated is read in English
  const href = pathIn(lesson.language, `/lessons/${lesson.id}`);
  const plain = { title, names: '' };
  return [
    { kind: 'lesson', ...plain, href, section: '', text: about },
    ...lessonSections(lesson.entry.body ?? '', context).map(
      ({ heading, text }): Entry => ({
        kind: 'lesson',
        ...plain,
        href: heading === '' ? href : `${href}#${anchorOf(heading)}`,
        section: heading,
        text,
      }),
    ),
    {
      kind: 'job-aid',
      href: `${href}/job-aid`,
      title: jobAid.title,
      section: '',
      names: '',
      text: jobAid.steps.map((step) => fill(step, context)).join(' '),
    },
  ];
}

/** A step with its figures filled in. */
const fill = (step: string, context: LessonContext): string =>
  splitText(step)
    .map((part) => {
      if (part.kind === 'text') return part.text;
      if (part.kind === 'figure') return shownFigure(part.of, context);
      return part.kind === 'limit' ? shownLimit(part.id, context) : shownFact(part.id, context);
    })
    .join('');

const wordEntry = ({ id, term, meaning, also = [] }: GlossaryWord): Entry => ({
  kind: 'word',
  href: `/glossary#${id}`,
  title: term,
  section: '',
  names: also.join(' '),
  text: meaning,
});

/** A row of the published limits: what each set asks of one thing. An organisation's own sets stay its own. */
function limitEntries(): Entry[] {
  const sets = [...loadLimitSets().values()].filter(({ basis }) => basis !== 'own');
  const titles = new Map(sets.map(({ id, title }) => [id, title]));
  return compareSets(sets).rows.map(({ measure, title, cells }) => {
    const holders = [...cells.keys()];
    const isUsual = holders.some((id) => USUAL_SETS.includes(id));
    return {
      kind: 'limit',
      href: `/limits${isUsual ? '' : `?set=${holders[0]}`}#${rowAnchor(measure)}`,
      title,
      section: '',
      names: '',
      text: [...cells]
        .map(
          ([id, shown]) =>
            `${titles.get(id)}: ${shown.map(({ figure }) => holdPieces(figure)).join('; ')}.`,
        )
        .join(' '),
    };
  });
}
