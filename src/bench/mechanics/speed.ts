/**
 * Rim speed of a blade, m/s: pi D n.
 * @param diameter mm over the teeth
 * @param speed rpm of the spindle
 */
export const rimSpeed = (diameter: number, speed: number): number =>
  (Math.PI * diameter * speed) / 60_000;

/** The spindle speed, rpm, that gives a blade of `diameter` mm a rim speed of `speed` m/s. */
export const spindleSpeed = (diameter: number, speed: number): number =>
  (speed * 60_000) / (Math.PI * diameter);
