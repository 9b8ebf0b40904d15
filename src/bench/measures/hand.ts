import type { Bench } from '../schema/index.ts';

/**
 * mm, the nearest the pushing hand comes to the front teeth over the whole cut, 0 without a push
 * stick: just before the stick is taken up, or at the end of the cut with it.
 */
export function nearestHand({ people: { pushStick }, job }: Bench): number {
  if (pushStick === null) return 0;
  return Math.min(pushStick.usedForLast, job.stock.length, pushStick.length);
}
