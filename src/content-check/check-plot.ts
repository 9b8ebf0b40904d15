import type { Bench } from '../bench/index.ts';
import { plotChange, READY, READY_PLOTS } from '../components/lesson/plots.ts';
import { BENCH_SCOPE } from '../limits/index.ts';
import { sayIn } from '../words/say.ts';
import {
  findLimit,
  isFromMemory,
  saysMemory,
  whyNoFigure,
  whyNoLimit,
} from './check-references.ts';
import type { LessonCase } from './course.ts';
import { listWords } from './flaw.ts';
import type { Part } from './lesson-source.ts';

const NAMED = { title: '', description: '' };
const texts = (value: unknown): string[] =>
  Array.isArray(value) ? value.map(String) : typeof value === 'string' ? [value] : [];

/** What keeps a plot from being worked out: each is tried on its bench. */
export function checkPlot(
  { attributes, text }: Part,
  bench: Bench | undefined,
  one: LessonCase,
): readonly string[] {
  const { show, change } = attributes;
  if ((show === undefined) === (change === undefined))
    return ['Plot: either show, a plot that is ready, or change, a field of the bench.'];
  if (show !== undefined) {
    const ready = READY[String(show)];
    if (ready === undefined) return [`Plot: show must be ${listWords(READY_PLOTS)}.`];
    return bench === undefined ? [] : tryOut(() => ready(bench, NAMED));
  }
  const says = [...checkChange(attributes, bench), ...checkLimits(attributes, text, one)];
  if (says.length > 0 || bench === undefined) return says;
  const asked = {
    change: String(change),
    from: Number(attributes['from']),
    to: Number(attributes['to']),
    of: texts(attributes['of']),
    limits: texts(attributes['limits']).flatMap((id) => findLimit(one, id) ?? []),
  };
  return tryOut(() => plotChange(bench, asked, NAMED, sayIn('en')));
}

function tryOut(draw: () => unknown): readonly string[] {
  try {
    draw();
    return [];
  } catch (error) {
    return [`Plot: it cannot be worked out on this bench: ${(error as Error).message}`];
  }
}

function checkChange(
  { change, from, to, of }: Part['attributes'],
  bench: Bench | undefined,
): readonly string[] {
  const says: string[] = [];
  if (BENCH_SCOPE.find(String(change))?.kind !== 'number')
    says.push(`Plot: change must be a field of the bench that is a number, and ${change} is none.`);
  if (typeof from !== 'number' || typeof to !== 'number' || from >= to)
    says.push('Plot: from and to must be two numbers, the smaller one first.');
  if (texts(of).length === 0) says.push('Plot: of must list what is drawn.');
  if (bench === undefined) return says;
  return [
    ...says,
    ...texts(of)
      .map((shown) => whyNoFigure(bench, shown))
      .filter((why) => why !== null),
  ];
}

function checkLimits(
  { limits }: Part['attributes'],
  caption: string,
  one: LessonCase,
): readonly string[] {
  return texts(limits).flatMap((id) => {
    const why = whyNoLimit(one, id);
    if (why !== null) return [`Plot: ${why}`];
    return isFromMemory(one, 'limit', id) && !saysMemory(caption)
      ? [`Plot: ${id} is known from memory only; the caption must say "from memory".`]
      : [];
  });
}
