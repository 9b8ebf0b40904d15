import { INSTRUMENTS, type Instrument, type InstrumentId } from '../../../bench/index.ts';
import { type Unit, unitToWatch } from '../../../competence/index.ts';
import {
  type BladeSeen,
  DEFAULT_INTERVAL,
  type Interval,
  isWork,
  unitsFor,
  type Work,
} from '../../../competence/sheet/index.ts';
import { type LimitSet, reviveLimitSet } from '../../../limits/index.ts';
import type { Kit } from '../../signing/index.ts';
import { say } from '../say.ts';

/** What a practical is about, as chosen. */
export type Chosen = { readonly person: string; readonly bench: string; readonly work: string };

/** Everything a sheet rests on, out of the kit of this device. */
export type Place = {
  readonly kit: Kit;
  readonly who: Kit['people'][number];
  readonly bench: Kit['benches'][number];
  readonly work: Work;
  /** the units this work needs, as this sheet asks them */
  readonly units: readonly Unit[];
  readonly set: LimitSet;
  readonly practice: LimitSet;
  readonly interval: Interval;
  readonly instruments: Readonly<Record<InstrumentId, Instrument>>;
  /** mm and teeth, of the blade on record */
  readonly blade: BladeSeen;
};

export type Found =
  | { readonly ok: true; readonly place: Place }
  | { readonly ok: false; readonly why: string };

const refuse = (why: string): Found => ({ ok: false, why });

/** The interval the organisation set, or guidance where it is the usual one. */
const intervalOf = ({ rules, org }: Kit): Interval =>
  rules.months === DEFAULT_INTERVAL.months
    ? DEFAULT_INTERVAL
    : { months: rules.months, source: say('interval.own', { org: org.name }) };

/** Finds in the kit what was chosen, or says which of it there is not. */
export function findPlace(kit: Kit, { person, bench: benchId, work }: Chosen): Found {
  const who = kit.people.find((one) => one.person === person);
  if (who === undefined) return refuse(say('no-person'));
  if (person === kit.trainer.person) return refuse(say('not-self'));
  const bench = kit.benches.find(({ id }) => id === benchId);
  if (bench === undefined) return refuse(say('no-bench'));
  if (!isWork(work) || !bench.work.includes(work)) {
    return refuse(say('no-work', { asset: bench.asset }));
  }
  const [set, practice] = [bench.limits, 'practice'].map((id) =>
    kit.sets.find((one) => one.id === id),
  );
  if (set === undefined || practice === undefined) {
    return refuse(say('no-limits', { asset: bench.asset, set: bench.limits }));
  }
  const sets = [reviveLimitSet(set), reviveLimitSet(practice)] as const;
  const { diameter, kerf, plate, teeth } = bench.file.blade;
  return {
    ok: true,
    place: {
      kit,
      who,
      bench,
      work,
      units: unitsFor(kit.units, work).map((unit) => unitToWatch(unit, work, sets)),
      set: sets[0],
      practice: sets[1],
      interval: intervalOf(kit),
      instruments: INSTRUMENTS,
      blade: { diameter, kerf, plate, teeth },
    },
  };
}

/** The key this practical is kept under on this device. */
export const sheetKeyOf = ({ kit, who, bench, work }: Place): string =>
  [kit.trainer.person, who.person, bench.id, work].join('/');

/** `Mira Holt, ripping on AL-01`. */
export const titleOf = ({ who, bench, work }: Place): string =>
  say('practical-title', { who: who.name, work: sayWork(work), asset: bench.asset });

/** The kind of work in the language of the page. */
export const sayWork = (work: string): string => say.maybe(`work.${work}`) ?? work;
