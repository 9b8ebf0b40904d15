import { isMeasureId } from '../bench/index.ts';
import { checkDescription, checkDrawingOf } from './check-drawing.ts';
import { checkFilledText } from './check-references.ts';
import { OLDEST_READER } from './check-shape.ts';
import type { LessonCase } from './course.ts';
import { type Flaw, problem, type Said } from './flaw.ts';
import type { Block } from './lesson-source.ts';
import { readingAge } from './reading-age.ts';
import { findLooseWords } from './trade-words.ts';
import { checkTypedFigures } from './typed-figures.ts';

/** A text with the line of each place in it. */
export type Placed = Said & {
  readonly lineAt: (index: number) => number;
  /** the text without what a link to the glossary explains; all of it when left out */
  readonly unexplained?: string;
};

const placed = (said: Said): Placed => ({ ...said, lineAt: () => said.line });

/** The words around the prose: head, job aid, names and descriptions of pictures. */
function saidAround({ lesson, head }: LessonCase): readonly Said[] {
  const { file } = lesson;
  const at = (...path: PropertyKey[]) => lesson.head.lineOf(path);
  const { jobAid } = head;
  const drawing = jobAid.drawing ?? {};
  const say = (text: unknown, line: number): Said[] =>
    typeof text === 'string' && text !== '' ? [{ file, line, text }] : [];
  return [
    ...say(head.title, at('title')),
    ...say(head.about, at('about')),
    ...say(jobAid.title, at('jobAid', 'title')),
    ...jobAid.steps.flatMap((step, i) => say(step, at('jobAid', 'steps', i))),
    ...say(drawing['title'], at('jobAid', 'drawing', 'title')),
    ...say(drawing['alt'], at('jobAid', 'drawing', 'alt')),
    ...lesson.parts.flatMap(({ name, attributes, line }) => {
      if (name === 'Caution') return say(attributes['word'], line);
      if (name !== 'Drawing' && name !== 'Plot') return [];
      const labels = Object.values((attributes['labels'] ?? {}) as Record<string, unknown>);
      return [attributes['title'], attributes['alt'], ...labels].flatMap((text) => say(text, line));
    }),
  ];
}

/** A word within <Term> is explained by the glossary, however it is put. */
const leaveOutTerms = ({ text, parts }: Block): string =>
  parts
    .filter(({ name, text: said }) => name === 'Term' && said !== '')
    .reduce((rest, { text: said }) => rest.replace(said, ' '.repeat(said.length)), text);

/** Every text of a lesson, its questions and its tasks: the places a figure or a word can be typed in. */
export function textsOf(one: LessonCase): readonly Placed[] {
  const { lesson, questions } = one;
  return [
    ...lesson.blocks.map((block) => ({
      file: lesson.file,
      line: block.lineAt(0),
      text: block.text,
      unexplained: leaveOutTerms(block),
      lineAt: block.lineAt,
    })),
    ...saidAround(one).map(placed),
    ...(questions?.questions ?? []).flatMap(({ said }) => said.map(placed)),
  ];
}

/** No number is typed, and every word is plain English or explained. */
export function checkTexts(one: LessonCase): readonly Flaw[] {
  const { english } = one.known;
  return textsOf(one).flatMap((said) => [
    ...checkTypedFigures(said, said.lineAt),
    ...(english === null || one.lesson.language !== 'en' ? [] : checkWords(said, one, english)),
  ]);
}

export function checkWords(
  { file, text, lineAt, unexplained = text }: Placed,
  { findTerms }: Pick<LessonCase, 'findTerms'>,
  english: NonNullable<LessonCase['known']['english']>,
): readonly Flaw[] {
  return findLooseWords(unexplained, english, findTerms).map(({ word, at }) =>
    problem(
      file,
      lineAt(at),
      `"${word}" is not explained; put it in the glossary if it is a trade word, or in content/everyday if everybody knows it.`,
    ),
  );
}

const FEWEST_STEPS = 3;
const MOST_STEPS = 10;

/** The sheet for the wall: its steps, what is to be measured, its drawing. */
export function checkJobAid(one: LessonCase): readonly Flaw[] {
  const { lesson, head, bench } = one;
  const { steps, measures, drawing } = head.jobAid;
  const at = (...path: PropertyKey[]) => lesson.head.lineOf(['jobAid', ...path]);
  const say = (line: number, says: string) => problem(lesson.file, line, `Job aid: ${says}`);
  const flaws: Flaw[] = [];
  if (steps.length < FEWEST_STEPS || steps.length > MOST_STEPS)
    flaws.push(say(at('steps'), `it has ${steps.length} steps; ${FEWEST_STEPS} to ${MOST_STEPS}.`));
  const age = steps.length === 0 ? 0 : readingAge(steps.join('\n\n').replace(/\{[^{}]*\}/g, 'ten'));
  if (lesson.language === 'en' && age > OLDEST_READER)
    flaws.push(
      say(at('steps'), `its steps read at the age of ${age.toFixed(1)}; at most ${OLDEST_READER}.`),
    );
  flaws.push(
    ...steps.flatMap((text, i) =>
      checkFilledText({ file: lesson.file, line: at('steps', i), text }, one, bench),
    ),
    ...measures
      .map((measure, i) => ({ measure, i }))
      .filter(({ measure }) => !isMeasureId(measure))
      .map(({ measure, i }) => say(at('measures', i), `there is no measure ${measure}.`)),
  );
  if (drawing !== null) {
    const named = drawing['bench'];
    const drawn = named === undefined ? bench : one.known.benches.get(String(named));
    if (named !== undefined && drawn === undefined)
      flaws.push(say(at('drawing'), `there is no bench ${named}.`));
    const says = [
      ...checkDescription(drawing, 'drawing'),
      ...checkDrawingOf(drawn, drawing, 'drawing'),
    ];
    flaws.push(...says.map((why) => say(at('drawing'), why)));
  }
  return flaws;
}
