import type { RatingLine } from '../../assessment/index.ts';
import type { Speaker } from '../../words/say.ts';

/** What a trainer is asked about one part of a test, and the part in a word or two for a table. */
export type SaidLine = { readonly title: string; readonly ask: string };

const KNOWN = [
  'find-danger',
  'find-warning',
  'find-caution',
  'find-in-order',
  'set',
  'plan',
  'react',
  'limit',
] as const;
const isKnown = (id: string): id is (typeof KNOWN)[number] =>
  (KNOWN as readonly string[]).includes(id);

/** @throws RangeError when a part has no words: a new kind of task needs them here */
export function sayLine({ id, count }: Pick<RatingLine, 'id' | 'count'>, say: Speaker): SaidLine {
  if (!isKnown(id)) throw new RangeError(`There are no words for the part ${id}.`);
  return { title: say.count(`pass-marks.line.${id}`, count), ask: say(`pass-marks.ask.${id}`) };
}

/** Steps a share is given in: twentieths, since a share is easiest thought of as so many of 20 people. */
export const SHARES: readonly { readonly share: number; readonly people: number }[] = Array.from(
  { length: 21 },
  (_, people) => ({ share: people / 20, people }),
);

/** A share, 0 to 1, with two decimals. */
export const sayShare = (share: number, say: Speaker): string => say.figures(share.toFixed(2));

/** Points of 100, to a tenth. */
export const sayPoints = (points: number, say: Speaker): string => say.figures(points.toFixed(1));
