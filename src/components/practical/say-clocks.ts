import type { Speaker } from '../../words/say.ts';

/** Difference from which two clocks are told of, minutes. */
export const CLOCKS_DIFFER = 5;

const MINUTE = 60_000;
/** The largest unit that still gives a whole number of 2 or more, in minutes. */
const UNITS = [
  ['days', 1440],
  ['hours', 60],
  ['minutes', 1],
] as const;

/**
 * One plain line on a record whose time on the device and time of receipt differ by more than 5 minutes, or
 * null. A record that came late may have waited; one that came before it was made had a clock that is ahead.
 */
export function sayClocks(
  { at, received }: { readonly at: string; readonly received: string },
  say: Speaker,
): string | null {
  const late = (Date.parse(received) - Date.parse(at)) / MINUTE;
  const by = Math.abs(late);
  if (!(by > CLOCKS_DIFFER)) return null;
  const [unit, length] = UNITS.find(([, minutes]) => by >= 2 * minutes) ?? ['minutes', 1];
  return say.count(`story.clock.${late > 0 ? 'late' : 'ahead'}-${unit}`, Math.floor(by / length));
}
