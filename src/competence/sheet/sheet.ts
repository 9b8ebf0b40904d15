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

/** What statement/2 adds to the first form. All of it, or none of it. */
export type SignedTogether = {
  /** the practical of which this is one unit: the same on every unit signed from it */
  readonly practical: string;
  /** digests of pictures taken, each of a criterion or of the machine as a whole */
  readonly photos: readonly { readonly digest: string; readonly criterion: string | null }[];
  /** what the person watched said to the result */
  readonly acknowledged: {
    readonly answer: 'agrees' | 'disagrees' | 'not-asked';
    readonly words: string | null;
  };
  /** where the trainer signed in afresh */
  readonly confirmed: 'site' | 'device';
};

/** A practical sheet of one unit, signed together with the other units of the same practical. */
export type SheetNow = Sheet & SignedTogether;

export const isSignedTogether = (sheet: Sheet): sheet is SheetNow => sheet.practical !== undefined;

/** A practical sheet, checked: what the site needs to write the statement by itself. */
export type Sheet = Partial<SignedTogether> &
  SheetSubject & {
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
