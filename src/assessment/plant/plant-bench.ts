import { type Bench, measureBench, readBench } from '../../bench/index.ts';
import { findFaults } from '../../limits/index.ts';
import type { SlotOf } from '../blueprint/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { Random } from '../random.ts';
import { type FindPlan, planFaults } from './plan-faults.ts';
import { makeSoundBench } from './sound-bench.ts';
import type { Given } from './spoiler.ts';

export type PlantedBench = { readonly bench: Bench; readonly plan: FindPlan };

type Tried =
  | { readonly ok: true; readonly bench: Bench }
  | { readonly ok: false; readonly culprit: string };

/** Whether a bench is possible and has just these faults, by the schema and by the engine. */
function hasJust(bench: Bench | null, faults: ReadonlySet<string>, rules: ExamRules): boolean {
  if (bench === null || !readBench(bench).ok) return false;
  const found = findFaults(bench, measureBench(bench), rules.sets, rules.catalogue);
  return found.length === faults.size && found.every(({ id }) => faults.has(id));
}

/** Puts a plan on a sound bench, one thing after another, each held against the engine. */
function carryOut(plan: FindPlan, sound: Bench, rules: ExamRules, random: Random): Tried {
  const { near, far } = rules.blueprint.margins;
  const given = (bench: Bench, steps: Given['steps']): Given => {
    return { bench, random, sets: rules.sets, steps };
  };
  const expected = new Set<string>();
  let bench = sound;
  for (const { spoiler, margin } of plan.faults) {
    const spoiled = spoiler.spoil(given(bench, margin === 'far' ? far : near));
    expected.add(spoiler.fault);
    if (!hasJust(spoiled, expected, rules)) return { ok: false, culprit: spoiler.fault };
    bench = spoiled as Bench;
  }
  for (const { lookAlike } of plan.lookAlikes) {
    const odd = lookAlike.apply(given(bench, near));
    if (!hasJust(odd, expected, rules)) return { ok: false, culprit: lookAlike.id };
    bench = odd as Bench;
  }
  return { ok: true, bench };
}

const TRIES = 120;

/**
 * A bench with just the planned faults and look-alikes. What cannot be on this bench, or under these
 * limits, is barred and the plan drawn again.
 * @throws RangeError when the blueprint asks for more than its bench and limits can show
 */
export function plantBench(slot: SlotOf<'find'>, rules: ExamRules, random: Random): PlantedBench {
  const { blueprint, benches, sets, catalogue, estimate } = rules;
  const planner = planFaults(slot, catalogue, estimate);
  const sound = makeSoundBench(blueprint, benches, sets, catalogue, random);
  const barred = new Set<string>();
  for (let i = 0; i < TRIES; i++) {
    const plan = planner.plan(barred, random);
    if (plan === null) break;
    const tried = carryOut(plan, sound, rules, random);
    if (tried.ok) return { bench: tried.bench, plan };
    barred.add(tried.culprit);
  }
  throw new RangeError(
    `The blueprint ${blueprint.id} asks for more faults or look-alikes than its bench and limits can show.`,
  );
}
