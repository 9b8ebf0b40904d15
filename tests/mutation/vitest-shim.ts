/**
 * As much of the test runner's interface as the engine's tests use, so that thousands of runs need
 * no process each. A test that uses more fails here at once, by name.
 */

export type Case = { readonly name: string; readonly run: () => unknown };

/** Tests of the file being read, in order. */
export const collected: Case[] = [];
const afterEachOf: (() => unknown)[] = [];
const around: string[] = [];

function add(name: string, run: () => unknown): void {
  const hooks = [...afterEachOf];
  collected.push({
    name: [...around, name].join(' > '),
    run: () => {
      const finish = () => {
        for (const hook of hooks) hook();
      };
      let result: unknown;
      try {
        result = run();
      } catch (error) {
        finish();
        throw error;
      }
      if (result instanceof Promise) return result.finally(finish);
      finish();
      return result;
    },
  });
}

type Body = (...given: never[]) => unknown;

function each(table: readonly unknown[]) {
  return (name: string, body: Body): void => {
    table.forEach((row, i) => {
      const given = Array.isArray(row) ? row : [row];
      add(`${name} #${i}`, () => body(...(given as never[])));
    });
  };
}

const makeTest = () => Object.assign(add, { each });
export const test = makeTest();
export const it = test;

export function describe(name: string, body: () => void): void {
  around.push(name);
  body();
  around.pop();
}

export function afterEach(hook: () => unknown): void {
  afterEachOf.push(hook);
}

/** Forgets the file before: its hooks, and tests already taken. */
export function startFile(): void {
  collected.length = 0;
  afterEachOf.length = 0;
}

type Asymmetric = { readonly matches: (value: unknown) => boolean };
const isAsymmetric = (value: unknown): value is Asymmetric =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Asymmetric).matches === 'function';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** Deep equality; fields that are undefined count as left out. `part`: more fields are allowed. */
function same(value: unknown, wanted: unknown, how: 'whole' | 'part'): boolean {
  if (isAsymmetric(wanted)) return wanted.matches(value);
  if (Object.is(value, wanted)) return true;
  if (!isObject(value) || !isObject(wanted)) return false;
  if (value instanceof Set && wanted instanceof Set) {
    const left = [...value];
    return (
      value.size === wanted.size &&
      [...wanted].every((one) => left.some((other) => same(other, one, 'whole')))
    );
  }
  if (value instanceof Map && wanted instanceof Map) return same([...value], [...wanted], how);
  if (Array.isArray(value) !== Array.isArray(wanted)) return false;
  if (Array.isArray(value) && value.length !== (wanted as unknown as unknown[]).length)
    return false;
  const keys = new Set([...Object.keys(wanted), ...(how === 'whole' ? Object.keys(value) : [])]);
  return [...keys].every((key) => same(value[key], wanted[key], how));
}

class Missed extends Error {}

function check(holds: boolean, isNot: boolean, said: string): void {
  if (holds === isNot) throw new Missed(said);
}

function messageOf(run: () => unknown): { thrown: unknown } | null {
  try {
    run();
    return null;
  } catch (thrown) {
    return { thrown };
  }
}

function threwAs(thrown: unknown, wanted: unknown): boolean {
  if (wanted === undefined) return true;
  if (typeof wanted === 'function') return thrown instanceof (wanted as new () => Error);
  const message = String((thrown as Error).message);
  if (wanted instanceof RegExp) return wanted.test(message);
  if (wanted instanceof Error) return message === wanted.message;
  return message.includes(String(wanted));
}

function matchersOf(value: unknown, isNot: boolean) {
  const is = (holds: boolean, said: string) => check(holds, isNot, said);
  const number = value as number;
  return {
    toBe: (wanted: unknown) => is(Object.is(value, wanted), 'toBe'),
    toEqual: (wanted: unknown) => is(same(value, wanted, 'whole'), 'toEqual'),
    toMatchObject: (wanted: unknown) => is(same(value, wanted, 'part'), 'toMatchObject'),
    toBeCloseTo: (wanted: number, digits = 2) =>
      is(number === wanted || Math.abs(number - wanted) < 10 ** -digits / 2, 'toBeCloseTo'),
    toBeLessThan: (wanted: number) => is(number < wanted, 'toBeLessThan'),
    toBeLessThanOrEqual: (wanted: number) => is(number <= wanted, 'toBeLessThanOrEqual'),
    toBeGreaterThan: (wanted: number) => is(number > wanted, 'toBeGreaterThan'),
    toBeGreaterThanOrEqual: (wanted: number) => is(number >= wanted, 'toBeGreaterThanOrEqual'),
    toBeNull: () => is(value === null, 'toBeNull'),
    toBeUndefined: () => is(value === undefined, 'toBeUndefined'),
    toHaveLength: (wanted: number) => is((value as unknown[]).length === wanted, 'toHaveLength'),
    toContain: (wanted: never) => is((value as never[]).includes(wanted), 'toContain'),
    toContainEqual: (wanted: unknown) =>
      is(
        (value as unknown[]).some((one) => same(one, wanted, 'whole')),
        'toContainEqual',
      ),
    toMatch: (wanted: RegExp | string) =>
      is(
        typeof wanted === 'string' ? String(value).includes(wanted) : wanted.test(String(value)),
        'toMatch',
      ),
    toThrow: (wanted?: unknown) => {
      const came = messageOf(value as () => unknown);
      is(came !== null && threwAs(came.thrown, wanted), 'toThrow');
    },
  };
}

export const expect = Object.assign(
  (value: unknown, _said?: string) => ({
    ...matchersOf(value, false),
    not: matchersOf(value, true),
  }),
  {
    closeTo: (wanted: number, digits = 2): Asymmetric => ({
      matches: (value) => Math.abs((value as number) - wanted) < 10 ** -digits / 2,
    }),
    stringMatching: (wanted: RegExp): Asymmetric => ({
      matches: (value) => wanted.test(String(value)),
    }),
    arrayContaining: (wanted: readonly unknown[]): Asymmetric => ({
      matches: (value) =>
        wanted.every((one) => (value as unknown[]).some((other) => same(other, one, 'whole'))),
    }),
  },
);
