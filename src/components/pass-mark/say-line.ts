import type { RatingLine } from '../../assessment/index.ts';

/** What a trainer is asked about one part of a test, and the part in a word or two for a table. */
export type SaidLine = { readonly title: string; readonly ask: string };

type Say = (count: number) => SaidLine;

const SAID: Readonly<Record<string, Say>> = {
  'find-danger': (count) => ({
    title: count === 1 ? 'The fault that stops the work' : `${count} faults that stop the work`,
    ask: 'Find such a fault on a bench they have not seen, name it, and say what to do about it',
  }),
  'find-warning': (count) => ({
    title: count === 1 ? 'The serious fault' : `${count} serious faults`,
    ask: 'Find such a fault, name it, and say what to do about it',
  }),
  'find-caution': (count) => ({
    title: count === 1 ? 'The lesser fault' : `${count} lesser faults`,
    ask: 'Find such a fault, name it, and say what to do about it',
  }),
  'find-in-order': (count) => ({
    title: count === 1 ? 'The look-alike' : `${count} look-alikes`,
    ask: 'Leave alone something that looks odd and is in order',
  }),
  set: (count) => ({
    title: count === 1 ? 'The setting' : `${count} settings for a job`,
    ask: 'Choose blade and knife from the rack and bring a setting within its limit',
  }),
  plan: () => ({
    title: 'The plan of the cut',
    ask: 'Choose right where to stand, which stick to feed with, and what carries the end',
  }),
  react: (count) => ({
    title: count === 1 ? 'Trouble at the bench' : `${count} troubles at the bench`,
    ask: 'Do what the trouble asks for, in the right order',
  }),
  limit: (count) => ({
    title: count === 1 ? 'The figure of the rules' : `${count} figures of the rules`,
    ask: 'Give the figure, or tell which readings meet it',
  }),
};

/** @throws RangeError when a part has no words: a new kind of task needs them here */
export function sayLine({ id, count }: Pick<RatingLine, 'id' | 'count'>): SaidLine {
  const say = Object.hasOwn(SAID, id) ? SAID[id] : undefined;
  if (say === undefined) throw new RangeError(`There are no words for the part ${id}.`);
  return say(count);
}

/** Steps a share is given in: twentieths, since a share is easiest thought of as so many of 20 people. */
export const SHARES: readonly { readonly share: number; readonly people: number }[] = Array.from(
  { length: 21 },
  (_, people) => ({ share: people / 20, people }),
);

/** A share, 0 to 1, with two decimals. */
export const sayShare = (share: number): string => share.toFixed(2);

/** Points of 100, to a tenth. */
export const sayPoints = (points: number): string => points.toFixed(1);
