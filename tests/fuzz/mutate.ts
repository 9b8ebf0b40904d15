import type { Random } from '../../src/assessment/index.ts';

/** Ways to spoil a valid file, quick enough for a hundred thousand in a minute. */

type Json = unknown;
type Group = Record<string, unknown>;

const isGroup = (value: Json): value is Group | unknown[] =>
  typeof value === 'object' && value !== null;

/** Values nobody means: numbers at the edge of what a number can be, and things of other kinds. */
const STRANGE: readonly (() => Json)[] = [
  () => Number.NaN,
  () => Number.POSITIVE_INFINITY,
  () => Number.NEGATIVE_INFINITY,
  () => -1,
  () => 0,
  () => -0,
  () => 1e308,
  () => 5e-324,
  () => -1e-12,
  () => 10_000,
  () => Number.MAX_SAFE_INTEGER,
  () => '',
  () => '400',
  () => 'x'.repeat(500),
  () => '\u0000\u202e\ud800',
  () => null,
  () => undefined,
  () => true,
  () => false,
  () => [],
  () => [[]],
  () => ({}),
  () => ({ toString: 1 }),
  () => Array.from({ length: 300 }, (_, i) => i),
  () => nest(200),
  () => new Date(0),
  () => 10n,
  () => Symbol.iterator,
];

function nest(depth: number): Json {
  let value: Json = 1;
  for (let i = 0; i < depth; i++) value = i % 2 === 0 ? [value] : { a: value };
  return value;
}

const NAMES = ['colour', '__proto__', 'constructor', 'toString', '0', '', 'x'.repeat(200)];

/** Every place in a value that holds something: its group and its key. */
function placesOf(value: Json, found: [Group, string][] = []): [Group, string][] {
  if (!isGroup(value)) return found;
  for (const key of Object.keys(value)) {
    found.push([value as Group, key]);
    placesOf((value as Group)[key], found);
  }
  return found;
}

/** A number near the one that was there, in size or in kind. */
function nudge(value: number, random: Random): number {
  switch (random.whole(0, 9)) {
    case 0:
      return -value;
    case 1:
      return value * 10 ** random.whole(-6, 6);
    case 2:
      return value + (random.fraction() - 0.5) * 10;
    case 3:
      return Math.round(value) + 0.5;
    case 4:
      return value + 1e-7;
    // most stay near, so that many files reach what lies behind the schema
    default:
      return value * (0.95 + random.fraction() / 10);
  }
}

/** A copy of a valid file with one to four things spoiled. */
export function spoilValue(valid: Json, random: Random): Json {
  const file = structuredClone(valid);
  const places = placesOf(file);
  for (let left = random.whole(1, 4); left > 0; left--) {
    const [group, key] = random.pick(places);
    const value = group[key];
    switch (random.whole(0, 12)) {
      case 0:
        delete group[key];
        break;
      case 1:
        Object.defineProperty(group, random.pick(NAMES), {
          value: random.pick(STRANGE)(),
          enumerable: true,
          configurable: true,
          writable: true,
        });
        break;
      case 2: {
        const [other, name] = random.pick(places);
        // a copy, so that no value comes to hold itself
        group[key] = isGroup(other[name]) ? structuredCopy(other[name]) : other[name];
        break;
      }
      case 3:
        group[key] = random.pick(STRANGE)();
        break;
      default:
        group[key] = typeof value === 'number' ? nudge(value, random) : random.pick(STRANGE)();
    }
  }
  return file;
}

/** A copy by JSON: symbols and the like fall away, which is spoiling too. */
function structuredCopy(value: Json): Json {
  try {
    return JSON.parse(JSON.stringify(value) ?? 'null');
  } catch {
    return null;
  }
}

const PIECES = [
  '0',
  '1',
  '7',
  '.5',
  'e1',
  '{',
  '}',
  '[',
  ']',
  ':',
  ',',
  '"',
  "'",
  '\n',
  ' ',
  '-',
  '&a ',
  '*a',
  '!!',
  '#',
  '|',
  '\t',
  '\u0000',
  '\u2028',
  '1e999',
  'NaN',
  '.inf',
  '~',
  '<<: ',
  '%',
  '\\u',
  '\ud800',
];

/** The text of a valid file with pieces cut out, put in, doubled or cut off. */
export function spoilText(valid: string, random: Random): string {
  let text = valid;
  for (let left = random.whole(1, 3); left > 0; left--) {
    const at = random.whole(0, text.length);
    const some = random.whole(1, 40);
    switch (random.whole(0, 3)) {
      case 0:
        text = text.slice(0, at) + text.slice(at + some);
        break;
      case 1:
        text = text.slice(0, at) + random.pick(PIECES) + text.slice(at);
        break;
      case 2:
        text = text.slice(0, at + some) + text.slice(at);
        break;
      default:
        text = text.slice(0, at);
    }
  }
  return text;
}
