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
  [
    'src/limits/subject-list.ts: if (place !== undefined) -> if (true)',
    'a failed measure no condition speaks of would go under the name "undefined", which nothing reads',
  ],
  [
    'src/limits/subject-list.ts: if (place !== null) -> if (true)',
    'a group that is no subject itself would go under the name "null", which nothing reads',
  ],
  [
    'src/limits/subject-list.ts: if (within.length > 0) -> if (true)',
    'a loop over no fields does nothing; the check saves the call',
  ],
  [
    'src/limits/subject-list.ts: within.length > 0 -> within.length >= 0',
    'a loop over no fields does nothing; the check saves the call',
  ],
  [
    'src/limits/subject-list.ts: if (branch === undefined) -> if (true)',
    'two branches with one key read the same field twice',
  ],
  [
    'src/limits/condition.ts: if (only !== undefined && tests.length === 1) -> if (false)',
    'a loop over one test; the check saves the loop',
  ],
  [
    'src/limits/condition.ts: if (rest.length === 0) -> if (false)',
    'the loop below does the same; the check saves the loop',
  ],
  [
    'src/limits/judge.ts: u === 0 -> false',
    'with no uncertainty the longer way comes to the same; the check saves it',
  ],
];

export const EQUIVALENT: ReadonlySet<string> = new Set(JUDGED.map(([change]) => change));
