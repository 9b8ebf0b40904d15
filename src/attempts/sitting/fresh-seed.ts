import { randomBytes } from 'node:crypto';
import type { Site, Viewer } from '../../accounts/index.ts';
import { chooseSeed, type ExamRules, practiseNext } from '../../assessment/index.ts';
import { attemptsOf } from '../read-attempts.ts';
import { faultsMet } from './faults-met.ts';

/** Seeds tried for a bench with a fault this person should practise: 19 of 20 times there is one. */
const TRIES = 30;

/**
 * A seed nobody can guess. In a test it is any; in practice it comes back to what this person is most
 * likely to miss today.
 */
export async function freshSeed(
  site: Site,
  { org, person }: Pick<Viewer, 'org' | 'person'>,
  rules: ExamRules,
  now: Date,
): Promise<string> {
  const isPractice = rules.blueprint.mode === 'practice';
  const seeds = Array.from({ length: isPractice ? TRIES : 1 }, () =>
    randomBytes(16).toString('hex'),
  );
  if (!isPractice) return chooseSeed(rules, [], seeds);
  const met = await faultsMet(site, org, person, await attemptsOf(site, org, person));
  const wanted = practiseNext(met, now.toISOString()).map(({ id }) => id);
  return chooseSeed(rules, wanted, seeds);
}
