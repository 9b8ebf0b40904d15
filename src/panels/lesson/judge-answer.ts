import { readLength } from '../../competence/sheet/index.ts';
import type { LengthUnit } from '../../geometry/index.ts';
import { say } from './words.ts';

/** What is said of an answer. `unread`: it could not be taken as an answer, and why. */
export type Judged =
  | { readonly verdict: 'right' | 'wrong'; readonly off?: number }
  | { readonly verdict: 'unread'; readonly because: string };

const judged = (isRight: boolean): Judged => ({ verdict: isRight ? 'right' : 'wrong' });

/** Choice and several: every right option chosen, and no other. */
export function judgeChoice(
  options: readonly { readonly chosen: boolean; readonly right: boolean }[],
): Judged {
  if (!options.some((one) => one.chosen)) {
    return { verdict: 'unread', because: say('unread.choice') };
  }
  return judged(options.every((one) => one.chosen === one.right));
}

/** Order: every step in its place. */
export const judgeOrder = (places: readonly number[]): Judged =>
  judged(places.every((place, i) => place === i));

/** Match: each left side with the right side of the same pair; null where nothing was chosen. */
export function judgeMatch(chosen: readonly (number | null)[]): Judged {
  if (chosen.includes(null)) return { verdict: 'unread', because: say('unread.match') };
  return judgeOrder(chosen as number[]);
}

/** A shop rule divided to 1/64 in shows a length no nearer than half of that, mm. */
const HALF_A_DIVISION = 25.4 / 128;
/** Three readings off such a rule may each be out by half a division. */
const INCH_ALLOWANCE = 3 * HALF_A_DIVISION;

const near = (value: number, wanted: number, within: number): Judged =>
  // a binary fraction at the edge counts as inside
  judged(Math.abs(value - wanted) <= within + 1e-9);

/**
 * A length within `within` mm of the answer. Worked in inch fractions it may be out by what the
 * fractions shown have been rounded.
 */
export function judgeLength(
  typed: string,
  shownIn: LengthUnit,
  answer: { readonly value: number; readonly within: number },
): Judged {
  const read = readLength(typed, shownIn);
  if (!read.ok) return { verdict: 'unread', because: say('unread.length') };
  const { mm, unit } = read.length;
  return near(mm, answer.value, answer.within + (unit === 'inch' ? INCH_ALLOWANCE : 0));
}

const FIGURE = /^-?\d+([.,]\d+)?$/;

/** Any other number, with its unit or without: `62.8`, `62,8 m/s`, `20°`. */
export function judgeNumber(
  typed: string,
  answer: { readonly value: number; readonly within: number },
): Judged {
  const figure = typed
    .trim()
    .replace(/[\u2212\u2012\u2013]/g, '-')
    .replace(/^(-?[\d.,]+)\s*[^\d.,\s][^\d]*$/, '$1');
  if (/^-?[1-9]\d{0,2},\d{3}$/.test(figure)) {
    const [one, other] = [figure.replace(',', ''), figure.replace(',', '.')];
    return { verdict: 'unread', because: say('unread.could', { one, other }) };
  }
  if (!FIGURE.test(figure)) return { verdict: 'unread', because: say('unread.number') };
  return near(Number(figure.replace(',', '.')), answer.value, answer.within);
}
