import { readLength } from '../../competence/sheet/index.ts';
import type { LengthUnit } from '../../geometry/index.ts';

/** What is said of an answer. `unread`: it could not be taken as an answer, and why. */
export type Judged =
  | { readonly verdict: 'right' | 'wrong' }
  | { readonly verdict: 'unread'; readonly because: string };

const judged = (isRight: boolean): Judged => ({ verdict: isRight ? 'right' : 'wrong' });

/** Choice and several: every right option chosen, and no other. */
export function judgeChoice(
  options: readonly { readonly chosen: boolean; readonly right: boolean }[],
): Judged {
  if (!options.some((one) => one.chosen)) {
    return { verdict: 'unread', because: 'Choose an answer first.' };
  }
  return judged(options.every((one) => one.chosen === one.right));
}

/** Order: every step in its place. */
export const judgeOrder = (places: readonly number[]): Judged =>
  judged(places.every((place, i) => place === i));

/** A shop rule divided to 1/64 in shows a length no nearer than half of that, mm. */
const HALF_A_DIVISION = 25.4 / 128;
/** Three readings off such a rule may each be out by half a division. */
const INCH_ALLOWANCE = 3 * HALF_A_DIVISION;

/**
 * Number: a length within `within` mm of the answer. Worked in inch fractions it may be out by what
 * the fractions shown have been rounded.
 */
export function judgeNumber(
  typed: string,
  shownIn: LengthUnit,
  answer: { readonly mm: number; readonly within: number },
): Judged {
  const read = readLength(typed, shownIn);
  if (!read.ok) return { verdict: 'unread', because: `The length ${read.message}.` };
  const { mm, unit } = read.length;
  const allowance = answer.within + (unit === 'inch' ? INCH_ALLOWANCE : 0);
  // a binary fraction at the edge counts as inside
  return judged(Math.abs(mm - answer.mm) <= allowance + 1e-9);
}
