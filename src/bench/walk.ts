import type { Part } from './measures/index.ts';

/** The parts in the order of a walk round the bench: the supply first. */
export const WALK: readonly Part[] = [
  'controls',
  'arbor',
  'blade',
  'knife',
  'guard',
  'under-guard',
  'drive',
  'fence',
  'insert',
  'table',
  'stock',
  'push-stick',
  'people',
  'place',
];
