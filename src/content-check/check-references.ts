import { type Bench, findFigure, measureBench } from '../bench/index.ts';
import { findLimit, setOfLimit } from '../limits/index.ts';
import type { LessonCase } from './course.ts';
import { type Flaw, problem, type Said } from './flaw.ts';

/** Why a figure cannot be worked out on a bench, or null when it can. */
export function whyNoFigure(bench: Bench, of: string): string | null {
  try {
    const { value } = findFigure(bench, of, measureBench(bench));
    return Number.isFinite(value) ? null : `The figure ${of} is no number on this bench.`;
  } catch (error) {
    return (error as Error).message;
  }
}

/** Every number of a text a reader may have taken from memory must say so. */
const SAYS_MEMORY = /from memory/i;

export function whyNoLimit(one: LessonCase, id: string): string | null {
  if (findLimit(one.known.sets, id) !== undefined) return null;
  const set = one.known.sets.get(setOfLimit(id));
  return set === undefined
    ? `There is no limit ${id}; it begins with the name of a set: ${[...one.known.sets.keys()].join(', ')}.`
    : `There is no limit ${id} in content/limits/${set.id}.yaml.`;
}

export function checkFactNamed(one: LessonCase, id: string): string | null {
  return one.facts.has(id) ? null : `There is no fact ${id} in content/facts.`;
}

export const isFromMemory = (one: LessonCase, kind: 'limit' | 'fact', id: string): boolean =>
  (kind === 'limit' ? findLimit(one.known.sets, id)?.source.seen : one.facts.get(id)?.seen) ===
  'memory';

export const saysMemory = (text: string): boolean => SAYS_MEMORY.test(text);

/** The `{...}` of a question or a step of a job aid: figures of the bench, limits and facts. */
export function checkFilledText(
  { file, line, text }: Said,
  one: LessonCase,
  bench: Bench | undefined,
): readonly Flaw[] {
  const names = [...text.matchAll(/\{([^{}]*)\}/g)].map(([, name = '']) => name.trim());
  const stray = text.replace(/\{[^{}]*\}/g, '').match(/[{}]/);
  const says = names.flatMap((name): (string | null)[] => {
    const [, kind, id = ''] = /^(limit|fact):\s*(.*)$/.exec(name) ?? [];
    if (kind === undefined) return bench === undefined ? [] : [whyNoFigure(bench, name)];
    const lost = kind === 'limit' ? whyNoLimit(one, id) : checkFactNamed(one, id);
    // a limit known from memory says so wherever it is shown; a fact does not
    const silent =
      kind === 'fact' && lost === null && isFromMemory(one, kind, id) && !saysMemory(text)
        ? `The figure of ${id} is known from memory only; the text must say "from memory".`
        : null;
    return [lost, silent];
  });
  return [
    ...says.filter((one) => one !== null).map((why) => problem(file, line, why)),
    ...(stray === null
      ? []
      : [problem(file, line, `A bracket ${stray[0]} stands alone; write {name}.`)]),
  ];
}
