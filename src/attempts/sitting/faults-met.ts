import type { Site } from '../../accounts/index.ts';
import type { Met } from '../../assessment/index.ts';
import type { AttemptMark } from '../read-attempts.ts';
import { sittingsOf } from './read-sittings.ts';
import { readSitting } from './test-sittings.ts';

/** Faults a person met in bench tasks, each with whether it was found. */
const metInAttempts = (attempts: readonly AttemptMark[]): Met[] =>
  attempts.flatMap(({ grade, handedInAt }) => {
    if (grade === null || handedInAt === null) return [];
    const met =
      (right: boolean) =>
      ({ fault: id }: { readonly fault: string }) => ({
        id,
        right,
        at: handedInAt,
      });
    return [...grade.found.map(met(true)), ...grade.missed.map(met(false))];
  });

/**
 * Every fault a person has met, on bench tasks and in tests. A test counts only once its result is out:
 * what somebody is offered to practise must not tell them what they missed before their trainer does.
 */
export async function faultsMet(
  site: Site,
  org: string,
  person: string,
  attempts: readonly AttemptMark[],
): Promise<Met[]> {
  const met = metInAttempts(attempts);
  for (const record of await sittingsOf(site, org, person)) {
    const sitting = record.isOut ? await readSitting(site, org, record) : null;
    const { handedInAt } = record;
    if (sitting === null || handedInAt === null) continue;
    for (const [id, right] of Object.entries(sitting.faults))
      met.push({ id, right, at: handedInAt });
  }
  return met;
}
