import type { Measures } from '../bench/index.ts';
import { above, atLeast, atMost, below, TOLERANCE } from '../geometry/index.ts';
import type { Condition, Plain } from './condition-schema.ts';
import { type FailedEnds, failedMask, type LimitGrade } from './failed-ends.ts';
import { type Reader, readField, readSubject } from './read-subject.ts';

/**
 * A compiled condition: whether it holds for this root (the bench, or one item of one of its
 * lists), with the bench's measures and the ends of limits that failed.
 */
export type Test = (root: unknown, measures: Measures, failed: FailedEnds) => boolean;

export const ALWAYS: Test = () => true;

/** How what a condition names is read: the value of a subject, and the ends of its limits that failed. */
export type Names = {
  readonly value: (name: string) => Reader;
  readonly failed: (name: string) => (root: unknown, failed: FailedEnds) => number;
};

const readFailed: Names['failed'] = (name) => (_root, failed) => failed.get(name) ?? 0;
const OF_BENCH: Names = { value: readSubject, failed: readFailed };
const OF_ITEM: Names = { value: readField, failed: readFailed };

/**
 * Turns a checked condition into one closure, once, when its file is read.
 * @param weakest which failed limits `outside` counts: a critical fault rests on a `must` only, so
 * that a failed `should` can never stop the work
 */
export function compileCondition(
  condition: Condition,
  weakest: LimitGrade = 'must',
  names: Names = OF_BENCH,
): Test {
  const inner = (one: Condition): Test => compileCondition(one, weakest, names);
  if (condition.all !== undefined) return all(condition.all.map(inner));
  if (condition.any !== undefined) return any(condition.any.map(inner));
  if (condition.not !== undefined) {
    const test = inner(condition.not);
    return (root, measures, failed) => !test(root, measures, failed);
  }
  if (condition.outside !== undefined) {
    const mask = failedMask(condition.end ?? 'any', weakest);
    return any(
      condition.outside.map((name) => {
        const read = names.failed(name);
        return (root, _measures, failed) => (read(root, failed) & mask) !== 0;
      }),
    );
  }
  const read = names.value(condition.of ?? '');
  return all([...valueTests(condition, read), ...orderTests(condition, read, names)]);
}

/** The test that holds when all of these do. One and two are most of them, and run without a loop. */
function all(tests: readonly Test[]): Test {
  const [first = ALWAYS, second, ...rest] = tests;
  if (second === undefined) return first;
  if (rest.length === 0) {
    return (root, measures, failed) =>
      first(root, measures, failed) && second(root, measures, failed);
  }
  return (root, measures, failed) => {
    for (const test of tests) if (!test(root, measures, failed)) return false;
    return true;
  };
}

function any(tests: readonly Test[]): Test {
  const [only] = tests;
  if (only !== undefined && tests.length === 1) return only;
  return (root, measures, failed) => {
    for (const test of tests) if (test(root, measures, failed)) return true;
    return false;
  };
}

/** Numbers are the same within the tolerance of every other comparison at a limit. */
function sameAs(wanted: Plain): (value: unknown) => boolean {
  return typeof wanted === 'number'
    ? (value) => typeof value === 'number' && Math.abs(value - wanted) <= TOLERANCE
    : (value) => value === wanted;
}

/** Comparisons with what the condition itself holds. */
function valueTests(condition: Condition, read: Reader): Test[] {
  const { is, isNot, oneOf, noneOf, empty, missing, some } = condition;
  const tests: Test[] = [];
  const add = (holds: (value: unknown) => boolean): void => {
    tests.push((root, measures) => holds(read(root, measures)));
  };
  if (missing !== undefined) add((value) => (value === null) === missing);
  if (typeof is === 'number') add(sameAs(is));
  // most conditions ask for one word: compared at once
  else if (is !== undefined) tests.push((root, measures) => read(root, measures) === is);
  if (isNot !== undefined) {
    const isSame = sameAs(isNot);
    add((value) => value !== null && !isSame(value));
  }
  if (oneOf !== undefined) {
    const words = new Set<unknown>(oneOf);
    tests.push((root, measures) => words.has(read(root, measures)));
  }
  if (noneOf !== undefined) {
    const words = new Set<unknown>(noneOf);
    add((value) => value !== null && !words.has(value));
  }
  if (empty !== undefined) add((value) => Array.isArray(value) && (value.length === 0) === empty);
  if (some !== undefined) tests.push(itemTest(some, read));
  return tests;
}

/** Whether some item of a list meets a condition of its own; names in it are fields of the item. */
function itemTest(condition: Condition, read: Reader): Test {
  const holds = compileCondition(condition, 'must', OF_ITEM);
  return (root, measures, failed) => {
    const list = read(root, measures);
    return Array.isArray(list) && list.some((item) => holds(item, measures, failed));
  };
}

const ORDERS = { above, below, atLeast, atMost } as const;
const ORDER_NAMES = ['above', 'below', 'atLeast', 'atMost'] as const;

/** Comparisons of size, with a number or with another measure or field. */
function orderTests(condition: Condition, read: Reader, names: Names): Test[] {
  return ORDER_NAMES.flatMap((name): Test[] => {
    const wanted = condition[name];
    if (wanted === undefined) return [];
    const holds = ORDERS[name];
    if (typeof wanted === 'number') {
      return [
        (root, measures) => {
          const value = read(root, measures);
          return typeof value === 'number' && holds(value, wanted);
        },
      ];
    }
    const readOther = names.value(wanted);
    return [
      (root, measures) => {
        const value = read(root, measures);
        const other = readOther(root, measures);
        return typeof value === 'number' && typeof other === 'number' && holds(value, other);
      },
    ];
  });
}
