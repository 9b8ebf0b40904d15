import type { Unit } from '../unit-schema.ts';
import type { Seen } from './draft.ts';
import type { Settled } from './settled.ts';
import { inEnglish, type Told, tell } from './tell.ts';

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

/**
 * Everything that stands in the way of signing off, one sentence each; none means the trainer may.
 * The same rule runs in the sheet and on the site: evidence that is missing, refused or too close to
 * call is no evidence.
 */
export function tellBlockers(standing: Standing): Told[] {
  const { unit, answerOf, read, stops, settled, diameter, largestBlade } = standing;
  if (stops.length > 0) return [tell('blocker.stopped')];
  const criteria = unit.criteria.flatMap(({ id, text }) => {
    const answer = answerOf(id);
    if (answer === 'yes') return [];
    return [tell(`blocker.${answer ?? 'unanswered'}`, { name: `"${text}"` })];
  });
  const missing = unit.settings
    .filter(({ id, needed }) => needed && !read.includes(id))
    .map(({ ask }) => tell('blocker.unmeasured', { name: `"${ask}"` }));
  const judged = settled.flatMap(({ signed, title, asks, grade }) => {
    if (signed.verdict === 'outside') return [tell('blocker.outside', { name: title, asks })];
    if (signed.verdict === 'too-close' && grade === 'must') {
      return [tell('blocker.close', { name: title, asks })];
    }
    return [];
  });
  const tooLarge =
    diameter !== null && diameter > largestBlade
      ? [tell('blocker.large', { largest: largestBlade })]
      : [];
  return [...criteria, ...missing, ...judged, ...tooLarge];
}

/** The same as sentences in English. */
export const blockersOf = (standing: Standing): string[] => tellBlockers(standing).map(inEnglish);
