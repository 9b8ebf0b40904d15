import type { Slot } from '../blueprint/index.ts';
import { plantBench } from '../plant/index.ts';
import { type Random, seedRandom } from '../random.ts';
import type { ExamRules } from './exam-rules.ts';
import type { FindTask, Form, FormTask } from './form.ts';
import { makeLimit } from './make-limit.ts';
import { makePlan } from './make-plan.ts';
import { makeReact } from './make-react.ts';
import { makeSet } from './make-set.ts';

/** Goes up when the same seed would make another form: an attempt names the one it was made with. */
export const FORM_GENERATOR = 'form-1';

function makeFind(
  slot: Extract<Slot, { kind: 'find' }>,
  rules: ExamRules,
  random: Random,
): FindTask {
  const { bench, plan } = plantBench(slot, rules, random);
  const { catalogue, estimate } = rules;
  return {
    id: 'find',
    kind: 'find',
    weight: slot.weight,
    estimate: Math.round(plan.expected),
    bench,
    planted: plan.faults.map(({ spoiler, margin, estimate: chance }) => ({
      fault: spoiler.fault,
      margin,
      estimate: chance,
    })),
    lookAlikes: plan.lookAlikes.flatMap(({ lookAlike: { id, like } }) => {
      const part = catalogue.byId.get(like)?.part;
      return part === undefined
        ? []
        : [{ lookAlike: id, part, like, estimate: estimate.find.lookAlike }];
    }),
  };
}

function makeTasks(slot: Slot, rules: ExamRules, random: Random): FormTask[] {
  switch (slot.kind) {
    case 'find':
      return [makeFind(slot, rules, random)];
    case 'set':
      return [makeSet(slot, rules, random)];
    case 'plan':
      return [makePlan(slot, rules, random)];
    case 'react':
      return makeReact(slot, rules, random);
    case 'limit':
      return makeLimit(slot, rules, random);
  }
}

/**
 * The form a seed gives under these rules: the same on every machine. Every task has a stream of its
 * own, so that a change to one slot of a blueprint leaves the others as they were.
 * @throws RangeError with a sentence when the blueprint asks for what cannot be
 */
export function makeForm(rules: ExamRules, seed: string): Form {
  const { blueprint } = rules;
  return {
    blueprint: { id: blueprint.id, version: blueprint.version },
    generator: FORM_GENERATOR,
    seed,
    tasks: blueprint.tasks.flatMap((slot) =>
      makeTasks(slot, rules, seedRandom(`${slot.kind} ${seed} ${blueprint.id}`)),
    ),
  };
}
