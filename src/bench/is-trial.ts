import type { Action } from './actions.ts';

/**
 * What tells a person how it comes out. To look, to measure and to lock off leave it to be said
 * beforehand. To fit something from a rack counts as well, though a bench knows of no rack.
 */
const TRIES: ReadonlySet<string> = new Set<Action['do'] | 'fit'>([
  'unlock',
  'lock',
  'set',
  'fit',
  'start',
  'feed',
  'rest-fingers',
  'raise-fingers',
]);

/** Whether a thing done is a trial, after which nothing can be said beforehand any more. */
export const isTrial = ({ do: what }: { readonly do: string }): boolean => TRIES.has(what);
