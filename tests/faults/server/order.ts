import type { EventDraft } from '../../../src/records/index.ts';
import type { StorePlace } from '../../../src/store/index.ts';

/** What a writing process is told to do, in one line of JSON. */
export type Order = {
  readonly place: StorePlace;
  readonly keyFile: string;
  /** offered before, with no answer heard: each list was one transaction */
  readonly again: readonly (readonly EventDraft[])[];
  /** how far the clock of this process is out, ms */
  readonly clockOffset: number;
  /** how many write at once inside the process */
  readonly hands: number;
};
