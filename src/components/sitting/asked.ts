import type { SlotKind } from '../../assessment/index.ts';

/** What a part of a test asks, in a few words. */
export const ASKED: Readonly<Record<SlotKind, string>> = {
  find: 'find faults',
  set: 'set the bench for a job',
  plan: 'plan a cut',
  react: 'act when something goes wrong',
  limit: 'figures of the rules',
};
