import type { InstrumentId } from '../../bench/index.ts';
import type { LengthUnit } from '../../geometry/index.ts';
import type { Day } from '../dates.ts';
import type { Decision, Seen, SheetSubject } from './draft.ts';

/** A length as read off an instrument. */
export type Reading = {
  /** id of the setting in the unit */
  readonly setting: string;
  /** in `unit` */
  readonly value: number;
  readonly unit: LengthUnit;
  readonly instrument: InstrumentId;
};

/** The blade on the machine, mm and teeth. */
export type BladeSeen = {
  readonly diameter: number;
  readonly kerf: number;
  readonly plate: number;
  readonly teeth: number;
};

/** A practical sheet, checked: what the site needs to write the statement by itself. */
export type Sheet = SheetSubject & {
  readonly observedAt: Day;
  readonly place: string;
  readonly material: string;
  readonly blade: BladeSeen;
  readonly criteria: readonly {
    readonly id: string;
    readonly result: Seen;
    readonly note?: string;
  }[];
  readonly readings: readonly Reading[];
  /** ids of stop-the-work errors seen */
  readonly stops: readonly string[];
  readonly stopNote?: string;
  readonly conditions: readonly string[];
  readonly decision: Decision;
  /** first and last day of a sign-off; null on a "not yet" */
  readonly validFrom: Day | null;
  readonly validUntil: Day | null;
};
