import { isMeasureId, MEASURES } from '../../bench/index.ts';
import type { Condition } from '../../limits/index.ts';
import { listIn } from '../../words/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { insideSentence } from '../inside-sentence.ts';
import type { Piece } from '../pieces.ts';
import { sayPieces } from '../say-pieces.ts';

const FIELDS_IN_MM = new Set(['blade.diameter', 'job.widthOfCut', 'insert.gaps.1']);
/** Whether a measure or field is a length in mm. */
const isLength = (of: string): boolean =>
  isMeasureId(of) ? MEASURES[of].unit === 'mm' : FIELDS_IN_MM.has(of);
const unitOf = (of: string): string => (of.startsWith('arbor.run') ? ' s' : '');

/** Fields of a bench file as a person calls them; a measure has its own title. */
export const nameSubject = (of: string, say: Speaker): string => {
  const measure = isMeasureId(of) ? say.maybe(`names.measure.${of}`, MEASURES[of].title) : null;
  const title = measure === null ? of.replaceAll('.', ' ') : insideSentence(measure, say);
  return say.maybe(`limits.of.${of}`, title);
};

function nameWord(of: string, word: string, say: Speaker): string {
  if (of === 'job.cut') return say.maybe(`names.work.${word}`, word);
  if (of === 'guard.kind') return say.maybe(`limits.guard.${word}`, word);
  return say.maybe(`limits.word.${word}`, word.replaceAll('-', ' '));
}

function amount(of: string, value: number | string, say: Speaker): Piece {
  if (typeof value === 'string') return nameSubject(value, say);
  return isLength(of) ? { mm: value } : say.figures(`${value}${unitOf(of)}`);
}

/** A condition in pieces, and whether it can open a sentence by itself: "for ripping", "without …". */
type Said = { readonly pieces: readonly Piece[]; readonly alone: boolean };

/** The words a field may or may not hold: "for ripping or deep cutting", "for every cut but grooving". */
function sayWords(
  of: string,
  allowed: readonly string[],
  refused: readonly string[],
  say: Speaker,
): Said {
  const isAllowed = allowed.length > 0;
  const words = (isAllowed ? allowed : refused).map((word) => nameWord(of, word, say));
  if (of === 'job.cut') {
    const cuts = listIn(say.language, words, isAllowed ? 'disjunction' : 'conjunction');
    return { pieces: [say(isAllowed ? 'limits.for' : 'limits.for.not', { cuts })], alone: true };
  }
  const put = { subject: nameSubject(of, say), words: listIn(say.language, words, 'disjunction') };
  return { pieces: [say(isAllowed ? 'limits.is' : 'limits.is-not', put)], alone: false };
}

const ORDER = ['above', 'below', 'atLeast', 'atMost'] as const;

const plainWord = (value: string | number | boolean, say: Speaker): string =>
  typeof value === 'boolean' ? say(value ? 'names.value.yes' : 'names.value.no') : String(value);

function sayComparison(of: string, condition: Condition, say: Speaker): Said {
  const subject = nameSubject(of, say);
  if (condition.missing !== undefined) {
    const key = condition.missing ? 'limits.without' : 'limits.with';
    return { pieces: [say(key, { subject })], alone: true };
  }
  const { is, isNot, oneOf = [], noneOf = [] } = condition;
  if (of === 'guard.fingers' && isNot === 'none') {
    return { pieces: [say('limits.with-fingers')], alone: true };
  }
  const allowed = is === undefined ? oneOf : [plainWord(is, say)];
  const refused = isNot === undefined ? noneOf : [plainWord(isNot, say)];
  if (allowed.length > 0 || refused.length > 0) return sayWords(of, allowed, refused, say);
  if (condition.empty !== undefined) {
    const key = condition.empty ? 'limits.no' : 'limits.some';
    return { pieces: [say(key, { subject })], alone: false };
  }
  const pieces = ORDER.flatMap((key) => {
    const value = condition[key];
    return value === undefined
      ? []
      : sayPieces(say, `limits.${key}`, { subject, amount: amount(of, value, say) });
  });
  return { pieces, alone: false };
}

function joined(
  conditions: readonly Condition[],
  key: 'limits.when.and' | 'limits.when.or',
  say: Speaker,
): Said {
  return conditions
    .map((one) => sayCondition(one, say))
    .reduce((one, other) => ({
      pieces: sayPieces(say, key, { one: one.pieces, other: other.pieces }),
      alone: one.alone,
    }));
}

function sayCondition(condition: Condition, say: Speaker): Said {
  if (condition.all !== undefined) return joined(condition.all, 'limits.when.and', say);
  if (condition.any !== undefined) return joined(condition.any, 'limits.when.or', say);
  if (condition.not !== undefined) {
    const { pieces } = sayCondition(condition.not, say);
    return { pieces: sayPieces(say, 'limits.when.not', { condition: pieces }), alone: false };
  }
  const nothing = { pieces: [], alone: false };
  return condition.of === undefined ? nothing : sayComparison(condition.of, condition, say);
}

/** When a limit is in force: "For ripping or deep cutting", "When blade diameter is at most 600 mm". */
export function sayWhen(condition: Condition, say: Speaker = sayIn('en')): Piece[] {
  const said = sayCondition(condition, say);
  const [first = '', ...rest] = sayPieces(say, said.alone ? 'limits.when.alone' : 'limits.when', {
    condition: said.pieces,
  });
  return typeof first === 'string'
    ? [first.charAt(0).toUpperCase() + first.slice(1), ...rest]
    : [first, ...rest];
}
