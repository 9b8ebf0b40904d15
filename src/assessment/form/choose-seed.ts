import type { ExamRules } from './exam-rules.ts';
import { makeForm } from './make-form.ts';

/**
 * The first of these seeds whose form has one of the faults wanted, for practice that comes back to
 * what was missed; the first of all when none has. The form is still made from its seed alone.
 * @param seeds at least one, in the order they are tried; each costs a few ms
 * @throws RangeError without a seed
 */
export function chooseSeed(
  rules: ExamRules,
  wanted: readonly string[],
  seeds: readonly string[],
): string {
  const [first] = seeds;
  if (first === undefined) throw new RangeError('There must be a seed to choose.');
  const holds = (seed: string) =>
    makeForm(rules, seed).tasks.some(
      (task) => task.kind === 'find' && task.planted.some(({ fault }) => wanted.includes(fault)),
    );
  return wanted.length === 0 ? first : (seeds.find(holds) ?? first);
}
