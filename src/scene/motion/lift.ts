/** A piece of work on the table: x of both ends and its top, mm in the plane of what rides on it. */
export type Work = { readonly trail: number; readonly lead: number; readonly top: number };

/** The underside of something that rides: level between two slopes that the work runs under. mm. */
export type Runner = {
  readonly front: number;
  readonly rear: number;
  /** length along x of the slope at each end */
  readonly nose: number;
  readonly tail: number;
  /** height of both slopes at their ends */
  readonly rise: number;
};

/** mm the underside stands above its level part at x; nothing stands beyond the two ends. */
export function undersideAt({ front, rear, nose, tail, rise }: Runner, x: number): number {
  if (x < front || x > rear) return Number.POSITIVE_INFINITY;
  if (x < front + nose) return (rise * (front + nose - x)) / nose;
  if (x > rear - tail) return (rise * (x - rear + tail)) / tail;
  return 0;
}

/**
 * mm above the table at which the level part of a runner stands: lifted by the work that has come under
 * it, never below its stop. A runner that yields moves back as it rises, so that the work meets it lower
 * on its slope; the height is the one at which it just touches.
 * @param back mm it has moved toward the take-off end at a height
 */
export function liftOver(
  runner: Runner,
  work: Work | null,
  stop: number,
  back: (height: number) => number = () => 0,
): number {
  if (work === null) return stop;
  const needed = (height: number): number => {
    const shift = back(height);
    const [from, to] = [work.trail - shift, work.lead - shift];
    if (to < runner.front || from > runner.rear) return stop;
    // the lowest part of the runner that is over the work carries it
    const level = Math.min(Math.max(runner.front + runner.nose, from), to, runner.rear);
    return Math.max(stop, work.top - undersideAt(runner, level));
  };
  let low = stop;
  let high = Math.max(stop, work.top);
  if (needed(low) <= low) return low;
  for (let i = 0; i < 44; i++) {
    const middle = (low + high) / 2;
    if (needed(middle) > middle) low = middle;
    else high = middle;
  }
  return high;
}
