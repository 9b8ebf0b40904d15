import { type Bench, findFigure } from '../bench/index.ts';
import { usualDigits } from '../components/lesson/figures.ts';
import { isDimensionId, PART_LABELS } from '../drawing/index.ts';
import { checkDescription, checkDrawingOf } from './check-drawing.ts';
import { checkFilledText, whyNoFigure } from './check-references.ts';
import { OLDEST_READER } from './check-shape.ts';
import type { LessonCase } from './course.ts';
import { type Flaw, listWords, problem } from './flaw.ts';
import { type AskedQuestion, isRecord, type QuestionsSource } from './questions-source.ts';
import { readingAge } from './reading-age.ts';

const FEWEST = 12;
const FEWEST_KINDS = 4;
const SHORTEST_BECAUSE = 40;
const SHORTEST_WHY = 15;
const KINDS = ['choice', 'several', 'order', 'number', 'match', 'mark'];

/** The bank of a lesson: how many, how varied, each answered with reasons, each placed once. */
export function checkQuestions(one: LessonCase): readonly Flaw[] {
  const { questions: bank, lesson } = one;
  if (bank === undefined)
    return [
      problem(
        lesson.file,
        1,
        `The lesson has no questions; write content/questions/${lesson.language}/${lesson.id}.yaml.`,
      ),
    ];
  const say = (says: string, line = 1) => problem(bank.file, line, says);
  const flaws = [...bank.flaws];
  const kinds = new Set(bank.questions.map(({ kind }) => kind));
  if (bank.questions.length < FEWEST)
    flaws.push(say(`The bank has ${bank.questions.length} questions; at least ${FEWEST}.`));
  if (kinds.size < FEWEST_KINDS)
    flaws.push(
      say(
        `The bank has ${kinds.size} kinds of question; at least ${FEWEST_KINDS} out of ${listWords(KINDS)}.`,
      ),
    );
  flaws.push(...checkGuessing(bank));
  if (lesson.language === 'en' && bank.questions.length > 0) {
    const said = bank.questions
      .flatMap(({ said }) => said.map(({ text }) => sentence(text)))
      .join('\n\n');
    const age = readingAge(said);
    if (age > OLDEST_READER)
      flaws.push(
        say(`The questions read at the age of ${age.toFixed(1)}; at most ${OLDEST_READER}.`),
      );
  }
  const seen = new Set<string>();
  for (const asked of bank.questions) {
    if (seen.has(asked.id)) flaws.push(say(`The id ${asked.id} is used twice.`, asked.line));
    seen.add(asked.id);
    const bench = benchOf(asked, one);
    flaws.push(...checkReasons(asked).map((why) => say(`${asked.id}: ${why}`, asked.line)));
    if (bench === 'none')
      flaws.push(
        say(
          `${asked.id}: there is no bench ${asked.fields['bench']} in content/benches.`,
          asked.lineOf('bench'),
        ),
      );
    const at = bench === 'none' ? undefined : bench;
    flaws.push(...checkKind(asked, at).map((why) => say(`${asked.id}: ${why}`, asked.line)));
    flaws.push(...asked.said.flatMap((said) => checkFilledText(said, one, at)));
  }
  return [...flaws, ...checkPlaced(one, bank)];
}

/** A figure in brackets is read as one short word. */
const sentence = (text: string): string => {
  const said = text.replace(/\{[^{}]*\}/g, 'ten').trim();
  return /[.!?]$/.test(said) ? said : `${said}.`;
};

function benchOf({ fields }: AskedQuestion, one: LessonCase): Bench | undefined | 'none' {
  const named =
    fields['bench'] ?? (isRecord(fields['drawing']) ? fields['drawing']['bench'] : undefined);
  if (named === undefined) return one.bench;
  return one.known.benches.get(String(named)) ?? 'none';
}

function checkReasons({ because, answers }: AskedQuestion): readonly string[] {
  const short = answers.filter(({ why }) => why.length < SHORTEST_WHY);
  const doubled = answers.filter(
    ({ text }, i) => answers.findIndex((other) => other.text.trim() === text.trim()) !== i,
  );
  const parroted = answers.filter(({ text, why }) => text !== '' && why.trim() === text.trim());
  return [
    ...(because.length < SHORTEST_BECAUSE
      ? [
          `because has ${because.length} letters; at least ${SHORTEST_BECAUSE} that teach why the answer is right.`,
        ]
      : []),
    ...short.map(
      ({ text }) =>
        `the answer "${text}" has no reason worth reading; why needs at least ${SHORTEST_WHY} letters.`,
    ),
    ...parroted.map(({ text }) => `the reason for "${text}" only says it again.`),
    ...doubled.map(({ text }) => `the answer "${text}" stands twice.`),
  ];
}

/** What only one kind of question can have wrong. */
function checkKind(
  { kind, answers, fields }: AskedQuestion,
  bench: Bench | undefined,
): readonly string[] {
  const right = answers.filter((answer) => answer.right).length;
  if (kind === 'choice' && right !== 1)
    return [`a choice has exactly one right option, and this one has ${right}.`];
  if (kind === 'several' && right === 0) return ['no option is right; mark at least one.'];
  if (kind === 'number') return checkNumber(fields, bench);
  if (kind === 'match') {
    const sides = (Array.isArray(fields['pairs']) ? fields['pairs'] : []).filter(isRecord);
    const rights = sides.map((pair) => String(pair['right']));
    return new Set(rights).size < rights.length ? ['two pairs have the same right side.'] : [];
  }
  if (kind === 'mark') return checkMark(fields, bench);
  return [];
}

/** A reader answers with the figure as shown; it must be right, and nothing or its double must be wrong. */
function checkNumber(fields: AskedQuestion['fields'], bench: Bench | undefined): readonly string[] {
  const of = String(fields['answer']);
  const within = Number(fields['within']);
  if (bench === undefined) return [];
  const why = whyNoFigure(bench, of);
  if (why !== null) return [why];
  const figure = findFigure(bench, of);
  const { value } = figure;
  const shown = Number(value.toFixed(usualDigits(figure)));
  if (!(Math.abs(shown - value) <= within))
    return [
      `the answer is shown as ${shown}, which lies outside within ${within} of ${value.toFixed(3)}; widen within.`,
    ];
  return within >= Math.abs(value) && value !== 0
    ? [
        `within ${within} is as large as the answer ${value.toFixed(3)}, so that nothing counts as right; narrow it.`,
      ]
    : [];
}

function checkMark(
  { drawing, target }: AskedQuestion['fields'],
  bench: Bench | undefined,
): readonly string[] {
  if (!isRecord(drawing)) return ['a mark needs a drawing.'];
  const says = [
    ...checkDescription(drawing, 'drawing'),
    ...checkDrawingOf(bench, drawing, 'drawing'),
  ];
  const aim = isRecord(target) ? target : {};
  const { part, dimension } = aim;
  if ((part === undefined) === (dimension === undefined))
    return [...says, 'target must be one of { part } and { dimension }.'];
  if (part !== undefined) {
    if (!(PART_LABELS as readonly string[]).includes(String(part)))
      return [...says, `target: no part is named ${part}; there are ${PART_LABELS.join(', ')}.`];
    return [
      ...says,
      ...checkDrawingOf(bench, { ...drawing, labels: { [String(part)]: '' } }, 'target'),
    ];
  }
  if (!isDimensionId(String(dimension)))
    return [...says, `target: there is no dimension ${dimension}.`];
  return [...says, ...checkDrawingOf(bench, { ...drawing, dimensions: [dimension] }, 'target')];
}

/** A reader must not get far by always taking the longest answer, or the same place. */
function checkGuessing({ file, questions }: QuestionsSource): readonly Flaw[] {
  const choices = questions.filter(({ kind, answers }) => kind === 'choice' && answers.length > 1);
  if (choices.length < 4) return [];
  const share = (test: (asked: AskedQuestion) => boolean) =>
    choices.filter(test).length / choices.length;
  const places = choices.map(({ answers }) => answers.findIndex(({ right }) => right));
  const flaws: Flaw[] = [];
  const longest = share(({ answers }) => {
    const right = answers.find((answer) => answer.right)?.text.length ?? 0;
    return answers.every((answer) => answer.right || answer.text.length < right);
  });
  if (longest > 0.7)
    flaws.push(
      problem(
        file,
        1,
        `In ${Math.round(longest * 100)} of 100 choices the right option is the longest; make wrong ones as long, at most 70.`,
      ),
    );
  for (const place of new Set(places)) {
    const same = places.filter((other) => other === place).length / places.length;
    if (same > 0.7)
      flaws.push(
        problem(
          file,
          1,
          `In ${Math.round(same * 100)} of 100 choices the right option stands in place ${place + 1}; move it, at most 70.`,
        ),
      );
  }
  return flaws;
}

/** Each question stands in the lesson once, by name or with the rest. */
function checkPlaced({ lesson }: LessonCase, bank: QuestionsSource): readonly Flaw[] {
  const named = lesson.parts.filter(({ name }) => name === 'Question');
  const rest = lesson.parts.filter(({ name }) => name === 'Questions');
  const ids = named.map(({ attributes }) => String(attributes['id']));
  return [
    ...named
      .filter((_part, i) => ids.indexOf(ids[i] as string) !== i)
      .map((part) =>
        problem(
          lesson.file,
          part.line,
          `The question ${part.attributes['id']} stands in the lesson twice.`,
        ),
      ),
    ...rest
      .slice(1)
      .map((part) => problem(lesson.file, part.line, '<Questions /> stands in the lesson twice.')),
    ...(rest.length > 0 ? [] : bank.questions.filter(({ id }) => !ids.includes(id))).map((asked) =>
      problem(
        bank.file,
        asked.line,
        `${asked.id}: no lesson places this question; write <Question id="${asked.id}" /> or <Questions />.`,
      ),
    ),
  ];
}
