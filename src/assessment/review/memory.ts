import type { Answer } from './answers.ts';

/*
 * How long a thing learnt is remembered. The curve is the power law of forgetting, which fits many studies
 * of memory (Wixted and Ebbesen, 1991; seen: memory). Its exponent and everything below the curve is this
 * site's own assumption, chosen to be simple, and not measured on anybody.
 */

/** Exponent of the curve. Assumption. */
const DECAY = 0.5;
/** A question is due when the chance that it is remembered has sunk to this. Assumption. */
export const DUE_AT = 0.9;
/** Makes the chance exactly DUE_AT when as many days have passed as the stability says. */
const FACTOR = DUE_AT ** (-1 / DECAY) - 1;

/** Days until a question answered right at the first try is due. Assumption. */
const FIRST_RIGHT = 3;
/** Days until a question answered wrong at the first try is due: the same working day. Assumption. */
const FIRST_WRONG = 0.25;
/** A right answer on the day it is due makes the time 1 + GAIN times as long. Assumption. */
const GAIN = 1.5;
/** However late it was, a right answer makes the time at most this many times as long. Assumption. */
const MOST_GROWTH = 4;
/** A wrong answer leaves this share of the time, within the two bounds below, days. Assumption. */
const LEFT_AFTER_WRONG = 0.2;
const SOONEST = 0.25;
const SOON = 2;
/** Nothing waits longer than a year, days. Assumption. */
const LONGEST = 365;

const DAY = 86_400_000;

/** What is known of one question. */
export type Memory = {
  /** days after the last answer until the chance that it is remembered is DUE_AT, above 0 */
  readonly stability: number;
  /** ISO instants in UTC */
  readonly lastAt: string;
  readonly dueAt: string;
};

/**
 * The chance that a thing is still remembered, 0 to 1.
 * @param days since it was last answered; less than 0 counts as 0
 * @param stability days, above 0
 */
export const chanceRemembered = (days: number, stability: number): number =>
  (1 + (FACTOR * Math.max(0, days)) / stability) ** -DECAY;

/** Whole and part days from one instant to a later one, ISO; 0 when it is not later. */
export const daysBetween = (from: string, to: string): number =>
  Math.max(0, (Date.parse(to) - Date.parse(from)) / DAY);

/** Right: the nearer it was to being forgotten, the more it proves. Just after an answer it proves nothing. */
function lengthen(stability: number, days: number): number {
  const forgotten = 1 - chanceRemembered(days, stability);
  const growth = Math.min(MOST_GROWTH, 1 + (GAIN * forgotten) / (1 - DUE_AT));
  return Math.min(LONGEST, stability * growth);
}

/** Wrong: soon again, and never later than before. */
const shorten = (stability: number): number =>
  Math.min(stability, SOON, Math.max(SOONEST, stability * LEFT_AFTER_WRONG));

/** What is known of a question after one more answer. `before` is null at the first. */
export function remember(
  before: Memory | null,
  { right, at }: Pick<Answer, 'right' | 'at'>,
): Memory {
  const after = (): number => {
    if (before === null) return right ? FIRST_RIGHT : FIRST_WRONG;
    return right
      ? lengthen(before.stability, daysBetween(before.lastAt, at))
      : shorten(before.stability);
  };
  const stability = after();
  const dueAt = new Date(Date.parse(at) + stability * DAY).toISOString();
  return { stability, lastAt: at, dueAt };
}
