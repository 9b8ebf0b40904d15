import type { InstrumentId } from '../../bench/index.ts';
import type { Verdict } from '../../limits/index.ts';

/** One measured setting as it is signed: the reading, its instrument, and what it was held against. */
export type SignedSetting = {
  readonly measure: string;
  readonly value: number;
  readonly unit: 'mm' | 'inch';
  readonly instrument: string;
  readonly uncertainty: number;
  readonly limit: string;
  readonly verdict: Verdict;
  readonly margin: number | null;
  readonly source: string;
};

/** A reading held against one limit, with what a trainer needs to read it by. */
export type Settled = {
  /** id of the unit's setting it was read for */
  readonly setting: string;
  readonly signed: SignedSetting;
  readonly title: string;
  /** what the limit asks, in the unit of the reading: "at most 8 mm" */
  readonly asks: string;
  readonly grade: 'must' | 'should';
  readonly critical: boolean;
  readonly note: string | null;
  readonly instrument: InstrumentId;
};
