import type { AttemptMark } from '../../attempts/index.ts';

export type Missed = {
  readonly fault: string;
  readonly part: string;
  readonly title: string;
  readonly critical: boolean;
  /** how often it was on the bench and not named */
  readonly missed: number;
  /** how often it was on the bench at all */
  readonly present: number;
};

/**
 * Faults by how often they were walked past, most often first; of two walked past as often, the one
 * seldom found comes first. A fault that was always found is left out.
 */
export function mostMissed(attempts: readonly Pick<AttemptMark, 'grade'>[]): Missed[] {
  const counts = new Map<string, Missed>();
  for (const { grade } of attempts) {
    const seen = [
      ...(grade?.missed ?? []).map((fault) => ({ fault, missed: 1 })),
      ...(grade?.found ?? []).map((fault) => ({ fault, missed: 0 })),
    ];
    for (const { fault, missed } of seen) {
      const { part, title, critical } = fault;
      const before = counts.get(fault.fault) ?? { missed: 0, present: 0 };
      counts.set(fault.fault, {
        fault: fault.fault,
        part,
        title,
        critical,
        missed: before.missed + missed,
        present: before.present + 1,
      });
    }
  }
  return [...counts.values()]
    .filter(({ missed }) => missed > 0)
    .sort((a, b) => b.missed - a.missed || a.present - b.present || a.title.localeCompare(b.title));
}
