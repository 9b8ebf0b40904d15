import { z } from 'zod';
import { angle, count, length, oneOf, part, quantity, yesNo } from './fields.ts';

const CrackSchema = part({
  /** mm from its root outward end to its tip, as it runs into the plate */
  length: length(0, 500),
  at: oneOf('gullet', 'rim', 'bore'),
  /** which tooth or gullet it starts from, counted from 0; picked for the picture when not given */
  tooth: count(0, 199).optional(),
});

/** A bright line on the plate from something that rubbed along it: it lies across no gullet and is no crack. */
const ScratchSchema = part({
  /** mm */
  length: length(1, 500),
  /** the tooth it lies below, counted from 0 */
  tooth: count(0, 199),
});

export const BladeSchema = part({
  /** D, mm over the tooth tips */
  diameter: length(50, 2000),
  /** mm, thickness of the body */
  plate: length(0.5, 12),
  /** mm, width of cut */
  kerf: length(0.5, 20),
  teeth: count(2, 200),
  /** mm, tip to gullet root */
  gulletDepth: length(1, 100),
  /** degrees the tooth face leans forward of the radius; negative leans back */
  hookAngle: angle(-15, 40),
  /** rpm marked on the blade as its greatest */
  maxSpeed: quantity(100, 30_000, 'rpm'),
  condition: part({
    cracks: z.array(CrackSchema, { error: 'must be a list' }).max(20, {
      error: 'must list at most 20 cracks',
    }),
    /** indices of missing teeth, counted from 0 */
    missingTeeth: z.array(count(0, 199), { error: 'must be a list' }).max(200, {
      error: 'must list at most 200 teeth',
    }),
    /** indices of teeth whose point has snapped off, the rest of the tooth still there */
    broken: z
      .array(count(0, 199), { error: 'must be a list' })
      .max(200, { error: 'must list at most 200 teeth' })
      .optional(),
    gullets: oneOf('rounded', 'square'),
    sharpness: oneOf('sharp', 'dull', 'uneven'),
    set: oneOf('even', 'uneven'),
    /** a blue or brown patch where the plate has rubbed */
    burnt: yesNo(),
    /** resin baked on to the teeth and the plate below them */
    resin: yesNo().optional(),
    scratches: z
      .array(ScratchSchema, { error: 'must be a list' })
      .max(20, { error: 'must list at most 20 scratches' })
      .optional(),
    /** maker, size and greatest speed can be read */
    marked: yesNo(),
  }),
  /** mm, the hole in the middle; by the blade's size when not given */
  bore: length(5, 300).optional(),
  /** a grooving tool marked by its maker for feed by hand (MAN) */
  handFeedMark: yesNo().optional(),
  /** which way its teeth point: mounted right, the front teeth cut downward */
  mounted: oneOf('right', 'backwards').optional(),
});

export const ArborSchema = part({
  /** mm below the table, in the blade plane */
  depth: length(0, 1000),
  /** rpm */
  speed: quantity(100, 30_000, 'rpm'),
  /** degrees of the blade from upright */
  tilt: angle(0, 50),
  /** mm, diameter of the largest blade the bench is built for */
  largestBlade: length(50, 2000),
  /** s to stand still after stop */
  runDown: quantity(0, 600, 's'),
  /** s to full speed after start */
  runUp: quantity(0, 600, 's'),
  vibration: oneOf('none', 'felt'),
  /** W, rated power of the motor */
  motorPower: quantity(50, 100_000, 'W').optional(),
  /** the pair of flanges that clamp the blade */
  flanges: oneOf('matched', 'unlike', 'dirty').optional(),
  nut: oneOf('tight', 'loose').optional(),
  /** mm, diameter of those flanges; by the blade's size when not given */
  collar: length(10, 500).optional(),
  /** the pads beside the plate under the front of the mouth, which steady it on benches made for them */
  packing: oneOf('fitted', 'worn', 'none').optional(),
});
