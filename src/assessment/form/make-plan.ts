import type { Bench } from '../../bench/index.ts';
import type { SlotOf } from '../blueprint/index.ts';
import { makeSoundBench } from '../plant/index.ts';
import type { Random } from '../random.ts';
import { planKey } from '../score/plan-key.ts';
import type { ExamRules } from './exam-rules.ts';
import type { EndCare, PlanTask, Stance, Stick } from './form.ts';
import { lettered } from './lettered.ts';

type Unlettered<Option> = Omit<Option, 'id'>;

/** Places to stand: beside the line of the cut, and in it at the blade, in the middle, at the fence. */
function stancesFor({ fence }: Bench, random: Random): Unlettered<Stance>[] {
  const x = () => -random.step(700, 900, 50);
  return [
    { x: x(), z: -random.step(200, 320, 20) },
    { x: x(), z: Math.round(fence.face / 2) },
    { x: x(), z: 10 },
    { x: x(), z: fence.face - 10 },
  ];
}

function sticksFor({ people, job }: Bench, random: Random): Unlettered<Stick>[] {
  const { length = 450, usedForLast = 300 } = people.pushStick ?? {};
  const whole = Math.min(job.stock.length, usedForLast + 100);
  return [
    { length: length + 50, usedForLast: whole },
    { length: random.step(200, 320, 20), usedForLast: whole },
    { length: length + 50, usedForLast: random.step(50, 150, 25) },
    { length: 0, usedForLast: 0 },
  ];
}

function endsFor({ table, job }: Bench, random: Random): Unlettered<EndCare>[] {
  const far = table.outfeed + job.stock.length;
  return [
    { by: 'nobody', at: null },
    { by: 'taker-off', at: table.outfeed + random.step(150, 400, 50) },
    { by: 'taker-off', at: table.outfeed - random.step(150, 500, 50) },
    { by: 'extension', at: far },
  ];
}

const TRIES = 40;

/**
 * A cut to plan. Each part has at least one right choice and one wrong one, by the engine and the
 * rules in force; what these rules say nothing about is not asked.
 * @throws RangeError when the rules leave nothing to plan
 */
export function makePlan(slot: SlotOf<'plan'>, rules: ExamRules, random: Random): PlanTask {
  const { blueprint, benches, sets, catalogue, estimate } = rules;
  // standing in the line and tipping off the table are matters of cutting along the grain
  const ripping = { ...blueprint, cuts: ['rip' as const] };
  for (let i = 0; i < TRIES; i++) {
    const sound = makeSoundBench(ripping, benches, sets, catalogue, random);
    const long = random.whole(0, 1) === 1;
    const length = long ? random.step(2400, 3600, 100) : sound.job.stock.length;
    const bench: Bench = {
      ...sound,
      job: { ...sound.job, stock: { ...sound.job.stock, length } },
      people: { ...sound.people, takeOff: null },
    };
    const task: PlanTask = {
      id: 'plan',
      kind: 'plan',
      weight: slot.weight,
      estimate: estimate.plan,
      bench,
      stances: lettered(stancesFor(bench, random), random),
      sticks: lettered(sticksFor(bench, random), random),
      ends: lettered(endsFor(bench, random), random),
    };
    const parts = Object.values(planKey(task, rules).parts);
    const asks = parts.every(
      (options) =>
        options.some(({ faults }) => faults.length === 0) &&
        options.some(({ faults }) => faults.length > 0),
    );
    if (asks) return task;
  }
  throw new RangeError(`The blueprint ${blueprint.id} has no cut to plan under its limits.`);
}
