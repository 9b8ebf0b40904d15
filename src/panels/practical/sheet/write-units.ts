import {
  heardOf,
  type PracticalDraft,
  photosOf,
  type SheetNow,
  writeStatement,
} from '../../../competence/sheet/index.ts';
import { withMeaning } from '../../../records/check/index.ts';
import type { Statement } from '../../../records/index.ts';
import { newSignoffId } from '../../signing/index.ts';
import type { ReadyUnit } from './check-practical.ts';
import type { Place } from './place.ts';

/** One unit as it will be signed, beside the sheet from which the site writes it again. */
export type WrittenUnit = ReadyUnit & {
  readonly statement: Statement;
  readonly sheetNow: SheetNow;
};

/** The statements of a practical, a fresh id to each. */
export function writeUnits(
  ready: readonly ReadyUnit[],
  draft: PracticalDraft,
  place: Place,
  confirmed: 'site' | 'device',
): WrittenUnit[] {
  const { kit, who, bench, set } = place;
  const acknowledged = heardOf(draft) ?? { answer: 'not-asked' as const, words: null };
  return ready.map((one) => {
    const sheetNow: SheetNow = {
      ...one.sheet,
      practical: draft.practical,
      photos: photosOf(draft, one.unit.id),
      acknowledged,
      confirmed,
    };
    const statement = withMeaning(
      writeStatement(sheetNow, one.settled, one.unit, {
        signoff: newSignoffId(),
        org: kit.org.id,
        who: { person: who.person, nameHash: who.nameHash },
        trainer: { person: kit.trainer.person, nameHash: kit.trainer.nameHash },
        bench: {
          id: bench.id,
          asset: bench.asset,
          guardKind: bench.file.guard?.kind ?? 'none',
        },
        limits: { set: set.id, version: String(set.version) },
      }),
    );
    return { ...one, statement, sheetNow };
  });
}
