import { isMeasureId, MEASURES } from '../../bench/index.ts';
import { nameWork } from '../../competence/index.ts';
import type { Condition } from '../../limits/index.ts';
import type { Piece } from '../pieces.ts';

/** Fields of a bench file as a person calls them; a measure has its own title. */
const FIELDS: Readonly<Record<string, string>> = {
  'job.cut': 'the cut',
  'guard.kind': 'the crown guard',
  'guard.fingers': 'the set of the fingers',
  'blade.diameter': 'blade diameter',
  'arbor.runUp': 'the run-up time',
  'job.stock.length': 'the length of the piece',
  'job.widthOfCut': 'the width between blade and fence',
  'people.takeOff': 'someone to take off',
  'people.operator.ears': 'what the operator wears on the ears',
  'exposure.dust.wood': 'the wood',
  'insert.gaps.1': 'the gap on the other side',
  underGuard: 'the guard under the table',
  knife: 'a riving knife',
  guard: 'a crown guard',
};

const GUARDS: Readonly<Record<string, string>> = {
  fixed: 'set by hand',
  'self-closing': 'lifted by the work',
  counterweighted: 'riding on the work',
  suspended: 'hung from a post or the ceiling',
};

const FIELDS_IN_MM = new Set(['blade.diameter', 'job.widthOfCut', 'insert.gaps.1']);
/** Whether a measure or field is a length in mm. */
const isLength = (of: string): boolean =>
  isMeasureId(of) ? MEASURES[of].unit === 'mm' : FIELDS_IN_MM.has(of);
const unitOf = (of: string): string => (of.startsWith('arbor.run') ? ' s' : '');

export const nameSubject = (of: string): string =>
  FIELDS[of] ?? (isMeasureId(of) ? MEASURES[of].title.toLowerCase() : of.replaceAll('.', ' '));

function listOf(words: readonly string[], join: 'and' | 'or'): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${join} ${last}`;
}

function nameWord(of: string, word: string): string {
  if (of === 'job.cut') return nameWork(word);
  if (of === 'guard.kind') return GUARDS[word] ?? word;
  return word.replaceAll('-', ' ');
}

function amount(of: string, value: number | string): Piece {
  if (typeof value === 'string') return nameSubject(value);
  return isLength(of) ? { mm: value } : `${value}${unitOf(of)}`;
}

/** The words a field may or may not hold: "for ripping or deep cutting", "for every cut but grooving". */
function sayWords(of: string, allowed: readonly string[], refused: readonly string[]): Piece[] {
  const named = (words: readonly string[], join: 'and' | 'or') =>
    listOf(
      words.map((word) => nameWord(of, word)),
      join,
    );
  if (of === 'job.cut') {
    return allowed.length > 0
      ? [`for ${named(allowed, 'or')}`]
      : [`for every cut but ${named(refused, 'and')}`];
  }
  return allowed.length > 0
    ? [`${nameSubject(of)} is ${named(allowed, 'or')}`]
    : [`${nameSubject(of)} is not ${named(refused, 'or')}`];
}

const ORDER = [
  ['above', 'above'],
  ['below', 'below'],
  ['atLeast', 'at least'],
  ['atMost', 'at most'],
] as const;

const plainWord = (value: string | number | boolean): string =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);

function sayComparison(of: string, condition: Condition): Piece[] {
  if (condition.missing !== undefined) {
    return [condition.missing ? `without ${nameSubject(of)}` : `with ${nameSubject(of)}`];
  }
  const { is, isNot, oneOf = [], noneOf = [] } = condition;
  if (of === 'guard.fingers' && isNot === 'none') return ['with fingers on the guard'];
  const allowed = is === undefined ? oneOf : [plainWord(is)];
  const refused = isNot === undefined ? noneOf : [plainWord(isNot)];
  if (allowed.length > 0 || refused.length > 0) return sayWords(of, allowed, refused);
  if (condition.empty !== undefined) {
    return [`${condition.empty ? 'no' : 'some'} ${nameSubject(of)}`];
  }
  return ORDER.flatMap(([key, words]) => {
    const value = condition[key];
    return value === undefined ? [] : [`${nameSubject(of)} is ${words} `, amount(of, value)];
  });
}

const joined = (parts: readonly Piece[][], join: string): Piece[] =>
  parts.flatMap((part, i) => (i === 0 ? part : [join, ...part]));

function sayCondition(condition: Condition): Piece[] {
  if (condition.all !== undefined) return joined(condition.all.map(sayCondition), ', and ');
  if (condition.any !== undefined) return joined(condition.any.map(sayCondition), ', or ');
  if (condition.not !== undefined) return ['not: ', ...sayCondition(condition.not)];
  return condition.of === undefined ? [] : sayComparison(condition.of, condition);
}

/** When a limit is in force: "For ripping or deep cutting", "When blade diameter is at most 600 mm". */
export function sayWhen(condition: Condition): Piece[] {
  const [first = '', ...rest] = sayCondition(condition);
  if (typeof first !== 'string') return ['When ', first, ...rest];
  return /^(for|with|without) /.test(first)
    ? [first.charAt(0).toUpperCase() + first.slice(1), ...rest]
    : [`When ${first}`, ...rest];
}
