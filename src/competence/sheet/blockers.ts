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

/** One thing in the way, and the field of the sheet where it is mended. */
export type Blocker = { readonly field: string; readonly told: Told };

const blocker = (field: string, ...of: Parameters<typeof tell>): Blocker => ({
  field,
  told: tell(...of),
});

/**
 * Everything that stands in the way of signing off, one sentence each; none means the trainer may.
 * The same rule runs in the sheet and on the site: evidence that is missing, refused or too close to
 * call is no evidence.
 */
export function findBlockers(standing: Standing): Blocker[] {
  const { unit, answerOf, read, stops, settled, diameter, largestBlade } = standing;
  if (stops.length > 0) return [blocker('stop-title', 'blocker.stopped')];
  const criteria = unit.criteria.flatMap(({ id, text }) => {
    const answer = answerOf(id);
    if (answer === 'yes') return [];
    return [blocker(`criterion.${id}`, `blocker.${answer ?? 'unanswered'}`, { name: `"${text}"` })];
  });
  const missing = unit.settings
    .filter(({ id, needed }) => needed && !read.includes(id))
    .map(({ id, ask }) => blocker(`reading.${id}`, 'blocker.unmeasured', { name: `"${ask}"` }));
  const judged = settled.flatMap(({ setting, signed, title, asks, grade }) => {
    const field = `reading.${setting}`;
    if (signed.verdict === 'outside')
      return [blocker(field, 'blocker.outside', { name: title, asks })];
    if (signed.verdict === 'too-close' && grade === 'must') {
      return [blocker(field, 'blocker.close', { name: title, asks })];
    }
    return [];
  });
  const tooLarge =
    diameter !== null && diameter > largestBlade
      ? [blocker('blade.diameter', 'blocker.large', { largest: largestBlade })]
      : [];
  return [...criteria, ...missing, ...judged, ...tooLarge];
}

/** The same without their fields. */
export const tellBlockers = (standing: Standing): Told[] =>
  findBlockers(standing).map(({ told }) => told);

/** The same as sentences in English. */
export const blockersOf = (standing: Standing): string[] => tellBlockers(standing).map(inEnglish);
