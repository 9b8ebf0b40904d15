import type { Instrument, InstrumentId } from '../../bench/index.ts';
import type { Unit } from '../../competence/index.ts';
import type { BladeSeen, SheetSubject, StatementContext } from '../../competence/sheet/index.ts';

import { say } from './say.ts';

/** A person as the sheet shows and signs them. */
type Somebody = { readonly person: string; readonly name: string; readonly nameHash: string };

/** What the page hands to the practical sheet: everything but what the trainer types. */
export type SheetProps = {
  readonly subject: SheetSubject;
  /** the kind of work, in the language of the page */
  readonly workName: string;
  readonly org: string;
  readonly who: Somebody;
  readonly trainer: Somebody & { readonly email: string };
  readonly bench: StatementContext['bench'] & {
    readonly title: string;
    /** mm */
    readonly largestBlade: number;
    readonly blade: BladeSeen;
  };
  readonly limits: StatementContext['limits'] & { readonly title: string };
  /** the unit as this work asks it */
  readonly unit: Unit;
  readonly instruments: Readonly<Record<InstrumentId, Instrument>>;
  /** calendar months a sign-off may run, and where the figure comes from */
  readonly interval: { readonly months: number; readonly source: string };
};

/** Which sheet this is, on this device. Another version of the unit is another sheet. */
export const sheetKeyOf = ({ subject, trainer, unit }: SheetProps): string =>
  [trainer.person, subject.person, subject.bench, subject.work, unit.id, unit.version].join('/');

/** `Mira Holt, ripping on AL-01: Set knife, guard, insert and extraction`. */
export const sheetTitleOf = ({ who, workName, bench, unit }: SheetProps): string =>
  say('sheet-title', { who: who.name, work: workName, asset: bench.asset, unit: unit.title });
