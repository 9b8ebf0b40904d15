import { z } from 'zod';
import { length, oneOf, part, yesNo } from './fields.ts';

export const KnifeSchema = part({
  /** mm, plate thickness of the riving knife */
  thickness: length(0.3, 20),
  /** mm, radius of its concave leading edge */
  edgeRadius: length(20, 1500),
  /** mm, height of its tip above the centre of that edge arc */
  reach: length(0, 1500),
  /** mm, offset of the edge-arc centre from the arbor axis along x; larger stands further back */
  along: length(-500, 500),
  /** mm, the same offset along y */
  up: length(-500, 500),
  /** mm, offset of its mid-plane from the blade's, along z */
  lateral: length(-50, 50),
  /** mm, side-to-side movement found by hand */
  play: length(0, 50),
  carriedBy: oneOf('arbor', 'frame', 'table'),
  /** its clamp is tight */
  locked: yesNo().default(true),
  condition: oneOf('straight', 'bent', 'worn').optional(),
  /** mm its tip gives sideways under 500 N, as in a type test of its fixing */
  deflection: length(0, 100).optional(),
});

export const GuardSchema = part({
  /** fixed: a crown guard set by hand */
  kind: oneOf('fixed', 'self-closing', 'counterweighted', 'suspended'),
  /**
   * mm, underside above the table: the lower rim that clears the work. The roof of the hood stands
   * higher, clear of the blade
   */
  height: length(0, 1000),
  /** mm, x of the end nearest the operator */
  front: length(-1500, 500),
  /** mm, x of the end nearest the take-off */
  rear: length(-500, 1500),
  /** mm the side plates hang below that rim, beside the work */
  sideDepth: length(0, 500),
  /** mm, side movement found by hand */
  play: length(0, 50),
  fingers: oneOf('none', 'raised', 'resting'),
  /** a self-acting guard that does not close */
  stuck: yesNo(),
  /** its clamp is tight */
  locked: yesNo().default(true),
  /** what holds it up: the riving knife, the frame by an arm or posts, a post or ceiling of its own */
  carriedBy: oneOf('knife', 'frame', 'hung').optional(),
  /** no crack, no broken or missing piece */
  whole: yesNo().optional(),
  /** rubbed bright or marked on its outside, and sound */
  scuffed: yesNo().optional(),
  /** a see-through window in its sides; left out, its sides are sheet */
  window: yesNo().optional(),
  /** a flap in its fence side, hanging shut or swung up for narrow work; left out, it has none */
  flap: oneOf('none', 'down', 'up').optional(),
  /** leans with a tilted arbor; left out, it does */
  leans: yesNo().optional(),
});

/** Plates beside the lower part of the blade, where `underGuard` is side-plates. */
export const UnderPlatesSchema = part({
  /** mm between the two */
  apart: length(0, 1000),
  /** mm they reach past the teeth */
  beyond: length(-500, 1000),
});

export const FenceSchema = part({
  /** mm, clear distance from the near side of the kerf to the fence face */
  face: length(0, 3000),
  /** mm, face distance at the rear teeth less that at the front teeth; positive opens */
  toe: length(-50, 50),
  /** mm, x of its far end */
  end: length(-1500, 3000),
  locked: yesNo(),
  /** mm, movement found by hand with the lock on */
  play: length(0, 50),
  /** its face is straight and whole */
  straight: yesNo().optional(),
});

export const InsertSchema = part({
  /** mm, [left, right] clear gap from the side of the kerf to the insert */
  gaps: z.tuple([length(0, 100), length(0, 100)], { error: 'must list two gaps: [left, right]' }),
  /** mm, top of the insert above the table; negative lies low */
  step: length(-20, 20),
  worn: yesNo(),
  /** fixed in its seat; false when it lifts or shifts under a thumb */
  firm: yesNo().optional(),
});

export const TableSchema = part({
  /** mm from the spindle centre to the operator's edge */
  infeed: length(100, 5000),
  /** mm from the spindle centre to the take-off edge */
  outfeed: length(50, 10_000),
  /** mm */
  width: length(100, 5000),
  level: yesNo(),
  sound: yesNo(),
  /** offcuts lie on it near the blade */
  offcuts: yesNo().optional(),
  /** a dark ring or patch on it that no finger can feel */
  stained: yesNo().optional(),
});
