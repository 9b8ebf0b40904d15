import { settleReadings, type Unit } from '../../../competence/index.ts';
import {
  type Draft,
  readBladeOf,
  readingsOf,
  type Settled,
} from '../../../competence/sheet/index.ts';
import { nameIn, pageLanguage } from '../../../words/spoken.ts';
import type { Place } from './place.ts';

/** The readings of one unit held against the limits in force, by the same sums as on the site. */
export type Verdicts = {
  readonly settled: readonly Settled[];
  /** `no-blade`: kerf and plate are not filled in yet, and the knife is judged by them */
  readonly state: 'current' | 'no-blade';
};

/** What a limit is about, in the language of the page where it has a name in it. */
export const nameLimit = ({ title, signed }: Settled): string =>
  pageLanguage() === 'en'
    ? title
    : nameIn('limit-titles', signed.limit, nameIn('names', `measure.${signed.measure}`, title));

export function judgeUnit(draft: Draft, unit: Unit, place: Place): Verdicts {
  const readings = readingsOf(draft, unit.settings, place.instruments);
  if (readings.length === 0) return { settled: [], state: 'current' };
  const blade = readBladeOf(draft);
  if (blade === null) return { settled: [], state: 'no-blade' };
  const { bench, set, practice, work } = place;
  const judging = { bench: bench.file, set, practice };
  const settled = settleReadings({ readings, blade, work }, unit, judging);
  return { settled, state: 'current' };
}
