import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { beamOf } from '../build/guard-beam.ts';
import { flapRunner } from '../build/guard-shape.ts';
import { GUARD_STOP, type Layout, layoutOf } from '../build/layout.ts';
import { fingerTurn } from './finger.ts';
import { liftOver, type Work } from './lift.ts';

/** How every moving piece of the guard stands. Lengths in mm, turns in radians, in the guard's plane. */
export type GuardPose = {
  /** y of the hood's lower rim */
  readonly rim: number;
  /** y of the lowest point of its nose: where the work meets it first */
  readonly nose: number;
  /** mm the hood stands further back than with the stock ready, its arms having swung */
  readonly back: number;
  /** turn of a riding guard's arms, positive with the guard low; 0 for any other */
  readonly armTurn: number;
  /** y of the lower edge of the leaves of a self-closing guard, and mm they have slid back; else null */
  readonly leaves: { readonly edge: number; readonly back: number } | null;
  /** turn of the fence-side flap about its hinge: 0 shut; 0 too where there is none */
  readonly flapTurn: number;
  /** turn of the anti-kickback fingers about their pin, negative down */
  readonly fingerTurn: number;
};

/** A flap swung up lies against the hood, not quite over. */
const FLAP_UP = (155 * Math.PI) / 180;
/** The slots of a leaf lean: mm it slides back for each mm it rises. */
export const LEAF_SLANT = 0.3;

/** Where the pin of the fingers sits on the hood, with its rim at a height. */
export const fingerPin = (rear: number, rim: number): Point => ({ x: rear - 20, y: rim + 20 });

/** The work as it lies with its leading end at `lead`, in the plane of the guard. */
export const workAt = ({ workLong, guardStock }: Layout, lead: number): Work => ({
  lead,
  trail: lead - workLong,
  top: guardStock,
});

/**
 * How the guard stands with the leading end of the work at `lead`, mm along the feed; null is the stock
 * standing ready. A guard set by hand stays where it was set, one that rides is lifted by its nose and
 * follows the work down again, leaves slide up on their pins, fingers trail. A stuck guard stays up.
 */
export function guardOverWork(bench: Bench, lead: number | null): GuardPose | null {
  const { guard } = bench;
  if (guard === null) return null;
  const layout = layoutOf(bench);
  const work = workAt(layout, lead ?? layout.ready);
  const { hoodRunner } = layout;
  let [rim, back, armTurn] = [layout.hoodRim, 0, 0];
  if (guard.kind === 'counterweighted') {
    const { armLong, armDrop } = beamOf(bench, layout);
    const turnAt = (height: number) =>
      Math.asin(Math.max(-1, Math.min(1, (armDrop - height) / armLong)));
    const level = armLong * Math.cos(turnAt(layout.hoodRim));
    const backAt = (height: number) => level - armLong * Math.cos(turnAt(height));
    if (hoodRunner !== null) rim = liftOver(hoodRunner, work, GUARD_STOP, backAt);
    [back, armTurn] = [backAt(rim), turnAt(rim)];
  }
  return {
    rim,
    nose: rim + (hoodRunner?.rise ?? 0),
    back,
    armTurn,
    leaves: leavesOver(bench, layout, work),
    flapTurn: guard.flap === 'up' ? FLAP_UP : 0,
    fingerTurn:
      guard.fingers === 'none'
        ? 0
        : fingerTurn(guard.fingers, fingerPin(guard.rear + back, rim), work),
  };
}

function leavesOver(bench: Bench, layout: Layout, work: Work): GuardPose['leaves'] {
  const { guard } = bench;
  if (guard?.kind !== 'self-closing') return null;
  const slide = (edge: number) => (edge - GUARD_STOP) * LEAF_SLANT;
  const edge = guard.stuck
    ? layout.hoodRim
    : liftOver(flapRunner(guard, layout), work, GUARD_STOP, slide);
  return { edge, back: slide(edge) };
}
