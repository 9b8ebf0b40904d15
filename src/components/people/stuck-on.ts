import type { AttemptMark } from '../../attempts/index.ts';

/** Walked past this often in a row, somebody is stuck on a fault. */
export const STUCK_AFTER = 3;

export type Stuck = {
  readonly fault: string;
  readonly title: string;
  readonly critical: boolean;
  /** how often it was missed in a row, up to the newest attempt that had it */
  readonly times: number;
};

/**
 * Faults a person has missed the last three times or more that they were on the bench: the longest first.
 * An attempt without the fault says nothing about it.
 * @param attempts of one person, newest first
 */
export function stuckOn(attempts: readonly Pick<AttemptMark, 'grade'>[]): Stuck[] {
  const runs = new Map<string, Stuck>();
  const over = new Set<string>();
  for (const { grade } of attempts) {
    for (const { fault } of grade?.found ?? []) over.add(fault);
    for (const { fault, title, critical } of grade?.missed ?? []) {
      if (over.has(fault)) continue;
      const times = (runs.get(fault)?.times ?? 0) + 1;
      runs.set(fault, { fault, title, critical, times });
    }
  }
  return [...runs.values()]
    .filter(({ times }) => times >= STUCK_AFTER)
    .sort((a, b) => b.times - a.times || a.title.localeCompare(b.title));
}
