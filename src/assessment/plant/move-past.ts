import { type Bench, isMeasureId, measureBench } from '../../bench/index.ts';
import { isDecided, judgeLimit, type LimitSet } from '../../limits/index.ts';
import type { Given } from './spoiler.ts';

/** A reading that has an end it may not pass, both in one unit. */
export type Against = { readonly value: number; readonly limit: number };

/** What is moved past, or up to, which end. */
export type Course = {
  /** the tightest limit in force at that end of any of these measures is the one that counts */
  readonly measures?: readonly string[];
  readonly end: 'min' | 'max';
  /** the limit of the catalogue itself, where no set has one: in the unit of the measure */
  readonly orElse?: number;
  /** reads value and limit off the bench, where no measure says it */
  readonly read?: (bench: Bench) => Against | null;
  /** the least step that can be told apart with the instrument people use for it */
  readonly tell: number;
  /** moves the state by so much, in the unit of `tell`, toward and past the end */
  readonly move: (bench: Bench, by: number) => Bench | null;
};

const FURTHEST = 1500;

/** To the thousandth: the last bit of a sum must not decide on which side of a step it falls. */
const settled = (value: number): number => Math.round(value * 1000) / 1000;

/** The tightest end in force on a measure, and what it reads; null when nothing decides there. */
function tightest(
  bench: Bench,
  measure: string,
  end: 'min' | 'max',
  sets: readonly LimitSet[],
): Against | null {
  const measures = measureBench(bench);
  const results = sets.flatMap((set) =>
    set.limits
      .filter((limit) => limit.measure === measure)
      .map((limit) => judgeLimit(limit, bench, measures))
      .filter(isDecided),
  );
  const ends = results.flatMap((result) => (result[end] === null ? [] : [result[end]]));
  const value = results[0]?.value;
  if (ends.length === 0 || typeof value !== 'number') return null;
  return { value, limit: end === 'max' ? Math.min(...ends) : Math.max(...ends) };
}

/** How far past the end the bench stands, the furthest of its measures; below 0 is inside. */
function pastBy(bench: Bench, course: Course, sets: readonly LimitSet[]): number | null {
  const { measures = [], end, orElse, read } = course;
  const known = read?.(bench);
  const found = known === undefined ? [] : known === null ? [] : [known];
  for (const measure of measures) {
    const against = tightest(bench, measure, end, sets);
    if (against !== null) found.push(against);
  }
  const [first] = measures;
  if (found.length === 0 && orElse !== undefined && first !== undefined && isMeasureId(first)) {
    const value = measureBench(bench)[first];
    if (typeof value === 'number') found.push({ value, limit: orElse });
  }
  if (found.length === 0) return null;
  const past = found.map(({ value, limit }) => (end === 'max' ? value - limit : limit - value));
  return settled(Math.max(...past));
}

/** What a walk in equal steps toward the end came to: the last bench still inside, the first past. */
function walk(
  { bench, sets }: Given,
  course: Course,
  isThere: (past: number) => boolean,
): { readonly before: Bench | null; readonly there: Bench } | null {
  let before: Bench | null = null;
  for (let step = 0; step <= FURTHEST; step++) {
    const moved = course.move(bench, settled(step * course.tell));
    const past = moved === null ? null : pastBy(moved, course, sets);
    if (moved === null || past === null) return null;
    if (isThere(past)) return { before, there: moved };
    before = moved;
  }
  return null;
}

/** The bench moved past the end by as many steps as the margin says; null where it cannot be. */
export function movePast(given: Given, course: Course): Bench | null {
  const wanted = settled(given.random.whole(...given.steps) * course.tell);
  return walk(given, course, (past) => past >= wanted)?.there ?? null;
}

/**
 * The bench moved up to the end and left inside it, by a step or two: near enough to have to measure.
 * @returns null where it stands there or past already, or cannot be moved there
 */
export function moveUpTo(given: Given, course: Course): Bench | null {
  const left = settled(given.random.whole(...given.steps) * course.tell);
  return walk(given, course, (past) => past > -left)?.before ?? null;
}
