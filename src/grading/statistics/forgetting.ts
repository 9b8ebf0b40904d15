import { requireNumber } from './arguments.ts';

/** Exponent d of the curve when none is given; a published default, not fitted to our people. */
export const FORGETTING_DECAY = 0.5;

/** Retention that defines stability: after one stability nine in ten are still recalled. */
const AT_STABILITY = 0.9;

/** f, chosen so that retention is .9 at t = S: .9^(-1/d) - 1. */
function forgettingFactor(decay: number): number {
  requireNumber('decay', decay, 0.05, 5);
  return AT_STABILITY ** (-1 / decay) - 1;
}

/**
 * Chance, 0 to 1, that something learnt is still recalled after a time: R = (1 + f t/S)^-d. A power
 * law (Wickelgren 1974; Wixted and Carpenter 2007: forgetting is quick at first and then slow).
 * elapsed 0 or more and stability S above 0, both in one unit, days say; decay .05 to 5.
 */
export function retentionAfter(
  elapsed: number,
  stability: number,
  decay = FORGETTING_DECAY,
): number {
  requireNumber('elapsed', elapsed, 0, Number.MAX_VALUE);
  requireNumber('stability', stability, Number.MIN_VALUE, Number.MAX_VALUE);
  return (1 + (forgettingFactor(decay) * elapsed) / stability) ** -decay;
}

/**
 * Time until retention has fallen to `wanted`, .01 to 1, in the unit of stability: the next time to
 * practise. It is the stability itself for .9, and 0 for 1.
 */
export function intervalFor(wanted: number, stability: number, decay = FORGETTING_DECAY): number {
  requireNumber('wanted', wanted, 0.01, 1);
  requireNumber('stability', stability, Number.MIN_VALUE, Number.MAX_VALUE);
  return (stability * (wanted ** (-1 / decay) - 1)) / forgettingFactor(decay);
}
