/**
 * Changes no test can notice, because the program does the same with them: file, what stood there and
 * what was put there, each with the reason. They are left out of the count.
 */
const JUDGED: readonly (readonly [change: string, reason: string])[] = [];

export const EQUIVALENT: ReadonlySet<string> = new Set(JUDGED.map(([change]) => change));
