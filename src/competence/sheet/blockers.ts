import type { Unit } from '../unit-schema.ts';
import type { Seen } from './draft.ts';
import type { Settled } from './settled.ts';

export type Standing = {
  /** the unit as this sheet asks it */
  readonly unit: Unit;
  readonly answerOf: (criterion: string) => Seen | null;
  /** ids of settings that have a reading */
  readonly read: readonly string[];
  readonly stops: readonly string[];
  readonly settled: readonly Settled[];
  /** mm, of the blade on the machine; null when not known yet */
  readonly diameter: number | null;
  /** mm, the largest blade this bench is built for */
  readonly largestBlade: number;
};

const SAID = { no: 'seen, and answered no', 'not-seen': 'not seen' } as const;

/**
 * Everything that stands in the way of signing off, one sentence each; none means the trainer may.
 * The same rule runs in the sheet and on the site: evidence that is missing, refused or too close to
 * call is no evidence.
 */
export function blockersOf(standing: Standing): string[] {
  const { unit, answerOf, read, stops, settled, diameter, largestBlade } = standing;
  if (stops.length > 0) return ['The work was stopped for a dangerous error.'];
  const criteria = unit.criteria.flatMap(({ id, text }) => {
    const answer = answerOf(id);
    if (answer === 'yes') return [];
    return [`"${text}" was ${answer === null ? 'not answered' : SAID[answer]}.`];
  });
  const missing = unit.settings
    .filter(({ id, needed }) => needed && !read.includes(id))
    .map(({ ask }) => `"${ask}" has not been measured.`);
  const judged = settled.flatMap(({ signed, title, asks, grade }) => {
    if (signed.verdict === 'outside') return [`${title} is outside the limit: ${asks}.`];
    if (signed.verdict === 'too-close' && grade === 'must') {
      return [
        `${title} is too close to call: measure it with something better, or set it further inside ${asks}.`,
      ];
    }
    return [];
  });
  const tooLarge =
    diameter !== null && diameter > largestBlade
      ? [`The blade is larger than this bench takes, ${largestBlade} mm.`]
      : [];
  return [...criteria, ...missing, ...judged, ...tooLarge];
}
