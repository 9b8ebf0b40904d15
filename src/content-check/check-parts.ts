import type { Bench } from '../bench/index.ts';
import { BENCH_SCOPE } from '../limits/index.ts';
import { checkDescription, checkDrawingOf } from './check-drawing.ts';
import { checkPlot } from './check-plot.ts';
import {
  checkFactNamed,
  isFromMemory,
  saysMemory,
  whyNoFigure,
  whyNoLimit,
} from './check-references.ts';
import type { LessonCase } from './course.ts';
import { type Flaw, listWords, problem } from './flaw.ts';
import { type Part, texts } from './lesson-source.ts';

/** The parts of a lesson: what must stand in the brackets, and what may. */
const PARTS: Readonly<
  Record<string, { readonly must: readonly string[]; readonly may: readonly string[] }>
> = {
  Figure: { must: ['of'], may: ['digits', 'bench'] },
  Limit: { must: ['id'], may: [] },
  LimitTable: { must: ['measures'], may: [] },
  Fact: { must: ['id'], may: ['digits'] },
  Drawing: { must: ['view', 'title', 'alt'], may: ['crop', 'dimensions', 'labels', 'bench'] },
  Plot: { must: ['title', 'alt'], may: ['show', 'change', 'from', 'to', 'of', 'limits', 'bench'] },
  Caution: { must: ['kind', 'word'], may: [] },
  BenchTask: { must: ['id'], may: [] },
  Question: { must: ['id'], may: [] },
  Questions: { must: [], may: [] },
  Term: { must: ['id'], may: [] },
};

const CAUTIONS = ['prohibition', 'warning', 'mandatory'];
const PICTURES = ['Drawing', 'Plot'];
const SHORTEST_CAPTION = 20;

/** Every part of a lesson: its name, its attributes, and that what it names is there. */
export function checkParts(one: LessonCase): readonly Flaw[] {
  const explained = new Set<string>();
  return one.lesson.parts.flatMap((part) => {
    const says = [...checkShape(part)];
    if (says.length === 0) says.push(...checkNames(part, one));
    if (part.name === 'Term') {
      const id = String(part.attributes['id']);
      if (explained.has(id))
        says.push(`Term: ${id} is explained above; a word is linked once in a lesson.`);
      explained.add(id);
    }
    return says.map((why) => problem(one.lesson.file, part.line, why));
  });
}

function checkShape({ name, attributes }: Part): readonly string[] {
  const known = PARTS[name];
  if (known === undefined)
    return [`There is no part <${name}>; there are ${Object.keys(PARTS).join(', ')}.`];
  const lost = known.must.filter((key) => attributes[key] === undefined);
  const stray = Object.keys(attributes).filter(
    (key) => !known.must.includes(key) && !known.may.includes(key),
  );
  return [
    ...lost.map((key) => `${name}: ${key} is missing.`),
    ...stray.map(
      (key) =>
        `${name}: ${key} is not known; there are ${[...known.must, ...known.may].join(', ')}.`,
    ),
  ];
}

/** The bench a part is worked out on: its own, or the lesson's. */
function benchOf(
  { name, attributes }: Part,
  one: LessonCase,
): { bench: Bench | undefined; says: string[] } {
  const named = attributes['bench'];
  if (named === undefined) return { bench: one.bench, says: [] };
  const bench = one.known.benches.get(String(named));
  return {
    bench,
    says: bench === undefined ? [`${name}: there is no bench ${named} in content/benches.`] : [],
  };
}

function checkNames(part: Part, one: LessonCase): readonly string[] {
  const { name, attributes } = part;
  const id = String(attributes['id']);
  const { bench, says } = benchOf(part, one);
  const add = (why: string | null) => {
    if (why !== null) says.push(why);
  };
  if (name === 'Figure' && bench !== undefined) add(whyNoFigure(bench, String(attributes['of'])));
  if (name === 'Limit') add(whyNoLimit(one, id));
  if (name === 'Fact') {
    add(checkFactNamed(one, id));
    const around = one.lesson.blocks.find((block) => block.parts.includes(part))?.text ?? '';
    if (isFromMemory(one, 'fact', id) && !saysMemory(around))
      add(`Fact: ${id} is known from memory only; the sentence must say "from memory".`);
  }
  if (name === 'LimitTable') says.push(...checkTable(texts(attributes['measures']), one));
  if (name === 'Term' && !one.words.has(id)) add(`Term: ${id} is not in the glossary.`);
  if (name === 'BenchTask' && !one.known.tasks.has(id))
    add(`BenchTask: there is no task ${id} in content/tasks.`);
  if (name === 'Question' && !one.questions?.questions.some((asked) => asked.id === id))
    add(`Question: ${id} is not in the questions of this lesson.`);
  if (name === 'Caution' && !CAUTIONS.includes(String(attributes['kind'])))
    add(`Caution: kind must be ${listWords(CAUTIONS)}.`);
  if (name === 'Caution' && part.text.length < SHORTEST_CAPTION)
    add('Caution: the text between its ends is missing.');
  if (PICTURES.includes(name)) {
    says.push(...checkDescription(attributes, name));
    if (part.text.length < SHORTEST_CAPTION)
      add(
        `${name}: the caption between its ends has ${part.text.length} letters; at least ${SHORTEST_CAPTION} that say what to see.`,
      );
  }
  if (name === 'Drawing') says.push(...checkDrawingOf(bench, attributes, name));
  if (name === 'Plot') says.push(...checkPlot(part, bench, one));
  return says;
}

/** A row of "what the rules say" that no set of the lesson has a figure for would stand empty. */
function checkTable(measures: readonly string[], one: LessonCase): readonly string[] {
  if (measures.length === 0) return ['LimitTable: measures must list at least one measure.'];
  return measures.flatMap((measure) => {
    if (BENCH_SCOPE.find(measure) === null) return [`LimitTable: there is no measure ${measure}.`];
    const held = one.sets.some((set) => set.limits.some((limit) => limit.measure === measure));
    return held
      ? []
      : [
          `LimitTable: no set of this lesson (${one.head.rules.join(', ')}) has a limit for ${measure}.`,
        ];
  });
}
