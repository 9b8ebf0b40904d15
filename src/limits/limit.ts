import type { Measures, MeasureUnit } from '../bench/index.ts';
import type { Test } from './condition.ts';
import type { Condition } from './condition-schema.ts';
import type { LimitGrade } from './failed-ends.ts';
import type { LimitEndFile, PublishedUnit, Seen } from './limit-schema.ts';
import type { Reader } from './read-subject.ts';

/** Where a figure comes from, shown beside every result. */
export type Source = {
  readonly document: string;
  readonly clause?: string;
  readonly year?: number;
  readonly seen: Seen;
};

/** An end of a limit that hangs on the bench, in the unit of the measure; null when it has no meaning there. */
export type EndReader = (root: unknown, measures: Measures) => number | null;
/** A figure, or what reads it off a bench. */
export type End = number | EndReader;

/** What the value is held against. */
export type Wanted =
  | {
      readonly kind: 'size';
      readonly min: End | null;
      readonly minInclusive: boolean;
      readonly max: End | null;
      readonly maxInclusive: boolean;
    }
  | { readonly kind: 'word'; readonly allowed: readonly (string | boolean)[] }
  | { readonly kind: 'fitted'; readonly fitted: boolean };

/** One figure of a set, ready to judge with. */
export type Limit = {
  readonly id: string;
  readonly set: string;
  readonly title: string;
  readonly measure: string;
  /** unit of value, ends and margin; figures published in inches are held in mm */
  readonly unit: MeasureUnit;
  readonly published: PublishedUnit;
  readonly wanted: Wanted;
  readonly aim: 'low' | 'middle' | 'high' | null;
  /** the band closeness is counted over; its own ends when null */
  readonly scale: { readonly min: number; readonly max: number } | null;
  readonly grade: LimitGrade;
  readonly critical: boolean;
  /** false: shown as advice, never decides */
  readonly decides: boolean;
  readonly source: Source;
  readonly note: string | null;
  /** when it is in force, as written, to tell a reader; null is always. `inForce` tests it */
  readonly when: Condition | null;
  /** its ends as written, in `published` units, to tell a reader; null where it has none */
  readonly asWritten: { readonly min: LimitEndFile | null; readonly max: LimitEndFile | null };
  readonly inForce: Test;
  readonly read: Reader;
  /** the limit of the extended set whose figure this one changes; null for all others */
  readonly changes: string | null;
};

/** An end for one bench, in the unit of the measure; null when it has no meaning there. */
export const endFor = (end: End, root: unknown, measures: Measures): number | null =>
  typeof end === 'number' ? end : end(root, measures);
