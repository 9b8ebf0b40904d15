import { type Bounds, between, keepInSight, type Pose } from './orbit.ts';

/** ms a change of viewpoint takes. */
const FLIGHT_TIME = 620;

export type EyeDrive = {
  readonly pose: () => Pose;
  /** where the eye is going, or where it is */
  readonly goal: () => Pose;
  flyTo(pose: Pose): void;
  /** at once, ending any flight */
  moveTo(pose: Pose): void;
  /** @returns true while in flight */
  step(now: number): boolean;
};

/** Moves the eye: at once, or in one smooth flight where motion is welcome. */
export function createEyeDrive(
  start: Pose,
  options: { bounds: () => Bounds; motion: 'smooth' | 'none' },
): EyeDrive {
  let pose = start;
  let flight: { from: Pose; to: Pose; began: number | null } | null = null;
  const ease = (t: number): number => (t < 0.5 ? 4 * t ** 3 : 1 - (2 - 2 * t) ** 3 / 2);
  const arrive = (wanted: Pose): void => {
    pose = keepInSight(wanted, options.bounds());
    flight = null;
  };
  return {
    pose: () => pose,
    goal: () => flight?.to ?? pose,
    flyTo(wanted) {
      const to = keepInSight(wanted, options.bounds());
      if (options.motion === 'none') arrive(to);
      else flight = { from: pose, to, began: null };
    },
    moveTo: arrive,
    step(now) {
      if (flight === null) return false;
      flight.began ??= now;
      const share = Math.min(1, (now - flight.began) / FLIGHT_TIME);
      if (share >= 1 || now === Number.POSITIVE_INFINITY) {
        arrive(flight.to);
        return true;
      }
      pose = keepInSight(between(flight.from, flight.to, ease(share)), options.bounds());
      return true;
    },
  };
}
