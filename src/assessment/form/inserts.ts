import type { InsertChoice } from './form.ts';

/** mm of slot of the inserts in the rack. Common practice, no source. */
export const INSERTS: readonly InsertChoice[] = [
  { id: 'insert-4', slot: 4 },
  { id: 'insert-9', slot: 9 },
  { id: 'insert-20', slot: 20 },
];

/** mm a slot must be wider than the cut on each side, or the blade rubs in it. Common practice, no source. */
export const LEAST_GAP = 0.5;
