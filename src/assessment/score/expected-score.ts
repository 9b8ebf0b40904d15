import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { FindTask, Form, FormTask } from '../form/form.ts';

/**
 * The people a form is thought to be sat by: so many points of chance above or below somebody at the
 * end of training, and their share. A stated population, not a counted one.
 */
export const POPULATION = [
  { shift: -20, share: 0.1 },
  { shift: -10, share: 0.2 },
  { shift: 0, share: 0.4 },
  { shift: 10, share: 0.2 },
  { shift: 20, share: 0.1 },
] as const;

const chanceOf = (percent: number): number => Math.min(98, Math.max(2, percent)) / 100;

/** Chances of each total, kept by how many half-points it comes to above `least`. */
type Spread = { readonly least: number; readonly chances: readonly number[] };

/** The spread of a total once something more has been added to it, each outcome with its chance. */
function addTo(
  { least, chances }: Spread,
  outcomes: readonly { readonly points: number; readonly chance: number }[],
): Spread {
  const lowest = Math.min(...outcomes.map(({ points }) => points));
  const highest = Math.max(...outcomes.map(({ points }) => points));
  const next = new Array<number>(chances.length + highest - lowest).fill(0);
  chances.forEach((chance, i) => {
    for (const outcome of outcomes) {
      const at = i + outcome.points - lowest;
      next[at] = (next[at] ?? 0) + chance * outcome.chance;
    }
  });
  return { least: least + lowest, chances: next };
}

/**
 * Expected score of one person at finding faults, exactly: faults are found, remedies known and
 * look-alikes fallen for independently, with their estimated chances. Counted in half-points, of
 * which every weight here is a whole number, so that nothing has to be drawn by lot.
 */
export function expectedFind(task: FindTask, { catalogue, estimate }: ExamRules, shift: number) {
  const weightOf = (fault: string) =>
    SEVERITY_WEIGHT[catalogue.byId.get(fault)?.severity ?? 'danger'];
  const parts = new Set(task.planted.map(({ fault }) => catalogue.byId.get(fault)?.part));
  const knows = chanceOf(estimate.find.remedy + shift);
  let spread: Spread = { least: 0, chances: [1] };
  let all = 0;
  for (const { fault, estimate: percent } of task.planted) {
    const weight = weightOf(fault);
    const found = chanceOf(percent + shift);
    all += 2 * weight;
    spread = addTo(spread, [
      { points: 0, chance: 1 - found },
      { points: weight, chance: found * (1 - knows) },
      { points: 2 * weight, chance: found * knows },
    ]);
  }
  for (const { like, part, estimate: percent } of task.lookAlikes) {
    const fooled = chanceOf(percent - shift);
    const cost = weightOf(like) * (parts.has(part) ? 1 : 2);
    spread = addTo(spread, [
      { points: 0, chance: 1 - fooled },
      { points: -cost, chance: fooled },
    ]);
  }
  const { least, chances } = spread;
  const mean = chances.reduce((sum, chance, i) => sum + chance * Math.max(0, least + i), 0);
  return all === 0 ? 0 : (100 * mean) / all;
}

const expectedTask = (task: FormTask, rules: ExamRules, shift: number): number =>
  task.kind === 'find' ? expectedFind(task, rules, shift) : 100 * chanceOf(task.estimate + shift);

/**
 * What a form is expected to score, 0 to 100, over the stated population and the stated estimates.
 * Forms of one blueprint are made to agree in this; how well they do is tried over many seeds.
 */
export function expectedScore({ tasks }: Form, rules: ExamRules): number {
  const all = tasks.reduce((sum, { weight }) => sum + weight, 0);
  return POPULATION.reduce((sum, { shift, share }) => {
    const score = tasks.reduce((s, task) => s + task.weight * expectedTask(task, rules, shift), 0);
    return sum + (share * score) / all;
  }, 0);
}
