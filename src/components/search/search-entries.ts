import { findFigure } from '../../bench/index.ts';
import { judgeLimit } from '../../limits/index.ts';
import { type Entry, holdLength } from '../../panels/search/index.ts';
import { loadLimitSets } from '../../store/content-files.ts';
import type { Language } from '../../words/index.ts';
import { sayIn } from '../../words/say.ts';
import { sayFactValue } from '../lesson/facts.ts';
import { sayFigure } from '../lesson/figures.ts';
import { splitText } from '../lesson/fill-text.ts';
import { anchorOf } from '../lesson/heading-anchor.ts';
import type { LessonContext } from '../lesson/lesson-context.ts';
import type { GlossaryWord } from '../lesson/lesson-schema.ts';
import { limitPieces } from '../lesson/limit-pieces.ts';
import { type Lesson, loadContext, loadLessons, loadWords } from '../lesson/load-lesson.ts';
import { compareSets } from '../limits/compare-sets.ts';
import { rowAnchor, USUAL_SETS } from '../limits/limit-rows.ts';
import type { Piece } from '../pieces.ts';
import { lessonSections } from './lesson-sections.ts';

/** Everything that can be found in a language, without an account. */
export async function searchEntries(language: Language): Promise<{
  readonly entries: readonly Entry[];
  readonly names: readonly (readonly string[])[];
}> {
  const lessons = await loadLessons(language);
  const words = [...(await loadWords(language)).values()];
  const fromLessons = await Promise.all(lessons.map(lessonEntries));
  return {
    entries: [...fromLessons.flat(), ...words.map(wordEntry), ...limitEntries()],
    names: words.map(({ term, also = [] }) => [term, ...also]),
  };
}

async function lessonEntries(lesson: Lesson): Promise<Entry[]> {
  const context = await loadContext(lesson);
  const { title, about, jobAid } = lesson.head;
  const href = `/lessons/${lesson.id}`;
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
const fill = (step: string, { bench, measures, language, facts }: LessonContext): string =>
  splitText(step)
    .map((part) => {
      if (part.kind === 'text') return part.text;
      const say = sayIn(language);
      if (part.kind === 'fact') {
        const fact = facts.get(part.id);
        return fact === undefined ? '' : sayFactValue(fact, say);
      }
      if (part.kind !== 'figure') {
        const set = loadLimitSets().get(part.id.split('.')[0] ?? '');
        const limit = set?.limits.find((one) => one.id === part.id);
        return limit === undefined
          ? ''
          : textOf(limitPieces(limit, judgeLimit(limit, bench, measures), say));
      }
      const figure = findFigure(bench, part.of, measures);
      return figure.unit === 'mm' ? holdLength(figure.value) : sayFigure(figure);
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

const textOf = (pieces: readonly Piece[]): string =>
  pieces.map((piece) => (typeof piece === 'string' ? piece : holdLength(piece.mm))).join('');

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
            `${titles.get(id)}: ${shown.map(({ figure }) => textOf(figure)).join('; ')}.`,
        )
        .join(' '),
    };
  });
}
