import type { EventDraft } from '../../../src/records/index.ts';
import type { StorePlace } from '../../../src/store/index.ts';

/** What a writing process is told to do in one round, in one line of JSON. */
export type Order = {
  readonly place: StorePlace;
  readonly keyFile: string;
  /** what is sent first: offered before with no answer heard, or offered by another at the same time. Each list is one transaction */
  readonly given: readonly (readonly EventDraft[])[];
  /** how far the clock of this process is out, ms */
  readonly clockOffset: number;
  /** how many write at once inside the process */
  readonly hands: number;
};

/** The lines after an order: begin to write, together with the others; finish what was begun and wait. */
export const GO = 'go';
export const REST = 'rest';
