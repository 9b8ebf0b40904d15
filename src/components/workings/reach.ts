import {
  type Bench,
  handToBlade,
  nearestHand,
  type Support,
  supportOf,
} from '../../bench/index.ts';
import type { PlotRequest } from '../../drawing/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

export type Reach = {
  readonly support: Support;
  /** mm from the hand to the front teeth at its nearest, over the whole cut */
  readonly nearest: number;
  readonly plot: PlotRequest;
};

const STEPS = 40;

/** When the piece tips, and how near the hand comes, all through the cut. */
export function reachOf(bench: Bench, say: Speaker = sayIn('en')): Reach {
  const { pushStick } = bench.people;
  const { length } = bench.job.stock;
  const last = pushStick === null ? 0 : Math.min(pushStick.usedForLast, length);
  const span = Math.min(length, Math.max(500, 2 * last));
  const byHand = { ...bench, people: { ...bench.people, pushStick: null } };
  const between = (from: number, to: number, of: Bench) =>
    Array.from({ length: STEPS + 1 }, (_, i) => {
      const left = from + ((to - from) * i) / STEPS;
      return { x: left, y: handToBlade(of, left) };
    });
  const hand = { label: say('workings.plot.reach.hand'), points: between(0, span, byHand) };
  const stick = { label: say('workings.plot.reach.stick'), points: between(0, last, bench) };
  return {
    support: supportOf(bench),
    nearest: nearestHand(bench),
    plot: {
      title: say('workings.plot.reach.title'),
      description: say('workings.plot.reach.about'),
      x: { title: say('workings.plot.reach.left'), unit: 'mm', reaches: [0] },
      y: { title: say('workings.plot.reach'), unit: 'mm', reaches: [0] },
      curves: last === 0 ? [hand] : [stick, hand],
    },
  };
}
