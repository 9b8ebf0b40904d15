/** kg/m3, plain carbon steel. */
const STEEL = 7850;

/** mm: the bore of a blade where the bench file does not say; a small part of its inertia. */
export const USUAL_BORE = 30;

/** A blade as a disc with a hole: what it takes to stop it. */
export type Disc = {
  readonly mass: number;
  /** kg m2 about its axis */
  readonly inertia: number;
};

/**
 * A steel disc of `diameter` and `thickness` mm with a bore of `bore` mm: I = M (R^2 + r^2) / 2.
 * Gullets and tips are left out, so a real blade is a little lighter.
 */
export function steelDisc(diameter: number, thickness: number, bore: number): Disc {
  const outer = diameter / 2000;
  const inner = bore / 2000;
  const mass = STEEL * Math.PI * (outer ** 2 - inner ** 2) * (thickness / 1000);
  return { mass, inertia: (mass * (outer ** 2 + inner ** 2)) / 2 };
}

/** rad/s from rpm. */
export const angularSpeed = (speed: number): number => (speed * 2 * Math.PI) / 60;

/** J of motion in a disc at `speed` rpm. */
export const spinEnergy = ({ inertia }: Disc, speed: number): number =>
  (inertia * angularSpeed(speed) ** 2) / 2;

/** N m of steady braking that stops a disc from `speed` rpm in `time` s. */
export const brakingTorque = ({ inertia }: Disc, speed: number, time: number): number =>
  (inertia * angularSpeed(speed)) / time;

/** What slows a spindle: a steady drag, one that grows with speed, one with its square. */
export type Drag = {
  /** N m */
  readonly steady: number;
  /** N m per rad/s */
  readonly viscous?: number;
  /** N m per (rad/s)^2 */
  readonly windage?: number;
};

/**
 * s until a spindle stands still, from `from` rad/s.
 * A steady drag must be there: under a drag that only grows with speed nothing ever quite stops,
 * so "stopped" would need a speed to be called that.
 * @throws RangeError when `steady` is not above 0
 */
export function runDownTime(inertia: number, from: number, drag: Drag): number {
  const { steady, viscous = 0, windage = 0 } = drag;
  if (!(steady > 0)) throw new RangeError('a spindle without steady drag never stands still');
  if (viscous === 0 && windage === 0) return (inertia * from) / steady;
  if (windage === 0) return (inertia / viscous) * Math.log1p((viscous * from) / steady);
  if (viscous === 0) {
    return (inertia / Math.sqrt(steady * windage)) * Math.atan(from * Math.sqrt(windage / steady));
  }
  return integrateRunDown(inertia, from, { steady, viscous, windage });
}

/** dt = I dw / T(w), by Simpson's rule: the integrand is smooth because the steady drag is not 0. */
function integrateRunDown(inertia: number, from: number, drag: Required<Drag>): number {
  const steps = 400;
  const width = from / steps;
  const slope = (w: number) => inertia / (drag.steady + drag.viscous * w + drag.windage * w * w);
  let sum = slope(0) + slope(from);
  for (let i = 1; i < steps; i++) sum += slope(i * width) * (i % 2 === 0 ? 2 : 4);
  return (sum * width) / 3;
}
