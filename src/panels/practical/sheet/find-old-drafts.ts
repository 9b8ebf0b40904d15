import { type Draft, type PracticalDraft, takeInDraft } from '../../../competence/sheet/index.ts';
import { dropSheet, leftHere } from '../../signing/index.ts';
import type { Left } from '../use-kept-draft.ts';
import { type Place, sheetKeyOf } from './place.ts';

/**
 * Sheets of single units that an earlier form of this page left for the same practical, as one practical.
 * @returns null when there are none
 */
export async function findOldDrafts(
  place: Place,
  fresh: () => PracticalDraft,
): Promise<Left<PracticalDraft> | null> {
  const start = `${sheetKeyOf(place)}/`;
  const { sheets } = await leftHere(place.kit.trainer.person);
  const old = sheets.filter(({ sheetKey }) => sheetKey.startsWith(start));
  if (old.length === 0) return null;
  const known = new Set(place.units.map(({ id }) => id));
  const draft = old.reduce((taken, { sheetKey, sheet }) => {
    const [unit = ''] = sheetKey.slice(start.length).split('/');
    return known.has(unit) ? takeInDraft(taken, unit, sheet as Draft) : taken;
  }, fresh());
  const taken = async () => {
    await Promise.all(old.map(({ sheetKey }) => dropSheet(sheetKey)));
  };
  return { draft, taken };
}
