import { measureBench } from '../../bench/index.ts';
import { chooseBlade } from '../../grading/index.ts';
import { findFaults, judgeLimit } from '../../limits/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import { gapsOf } from '../form/fit.ts';
import type { FindTask, Form, FormTask, LimitTask, ReactTask, SetTask } from '../form/form.ts';
import { LEAST_GAP } from '../form/inserts.ts';
import { figureOf } from '../form/make-limit.ts';
import type { FindKey, FormKey, LimitKey, ReactKey, SetKey, TaskKey } from './key.ts';
import { meetsLimit } from './meets-limit.ts';
import { planKey } from './plan-key.ts';

/** What the engine finds on the bench; what was planted is not asked. */
function findKey({ bench }: FindTask, { sets, catalogue }: ExamRules): FindKey {
  return { kind: 'find', faults: findFaults(bench, measureBench(bench), sets, catalogue) };
}

function setKey(task: SetTask, rules: ExamRules): SetKey {
  const { sets, catalogue } = rules;
  const rack = { ...rules.rack, blades: [...task.blades], knives: [...task.knives] };
  const choices = chooseBlade({ bench: task.bench, rack, sets });
  const insertsFor = (kerf: number) =>
    task.inserts.filter((insert) => {
      const gaps = gapsOf(insert, kerf);
      if (gaps === null || gaps[0] < LEAST_GAP) return false;
      const bench = { ...task.bench, insert: { ...task.bench.insert, gaps, worn: false } };
      const found = findFaults(bench, measureBench(bench), sets, catalogue);
      return found.every(({ part }) => part !== 'insert');
    });
  return {
    kind: 'set',
    blades: choices
      .filter(({ fits }) => fits)
      .map(({ blade, score }) => ({ id: blade.id, worth: score })),
    inserts: Object.fromEntries(
      task.blades.map(({ id, kerf }) => [id, insertsFor(kerf).map((insert) => insert.id)]),
    ),
    settings: task.settings,
  };
}

function reactKey(task: ReactTask, { situations }: ExamRules): ReactKey {
  const situation = situations.get(task.situation);
  const of = <Item>(list: 'steps' | 'slips', items: readonly Item[] = []) =>
    task.choices.flatMap(({ id, from }) => {
      const item = from.list === list ? items[from.index] : undefined;
      return item === undefined ? [] : [{ ...item, id }];
    });
  const steps = of('steps', situation?.steps).sort((a, b) => a.place - b.place);
  return { kind: 'react', steps, slips: of('slips', situation?.slips) };
}

/** Share of a figure that an answer may be off: inch fractions are given as decimals. */
const NEARLY = 0.01;

function limitKey(task: LimitTask, { sets }: ExamRules): LimitKey {
  const limit = sets.flatMap((set) => set.limits).find(({ id }) => id === task.limit);
  if (limit === undefined) {
    throw new RangeError(`The limit ${task.limit} is not in the sets in force.`);
  }
  const figure = figureOf(limit, task.end, task.bench) ?? 0;
  const { bench } = task;
  return {
    kind: 'limit',
    figure,
    within: Math.max(Math.abs(figure) * NEARLY, 0.005),
    readings: task.readings.map(({ id, value }) => ({
      id,
      meets: meetsLimit(limit, value, bench),
    })),
    source: judgeLimit(limit, bench, measureBench(bench)).source,
  };
}

function keyOfTask(task: FormTask, rules: ExamRules): TaskKey {
  switch (task.kind) {
    case 'find':
      return findKey(task, rules);
    case 'set':
      return setKey(task, rules);
    case 'plan':
      return planKey(task, rules);
    case 'react':
      return reactKey(task, rules);
    case 'limit':
      return limitKey(task, rules);
  }
}

/** What is right in a form, worked out by the engine from the benches and the rules in force. */
export const keyOf = (form: Form, rules: ExamRules): FormKey =>
  Object.fromEntries(form.tasks.map((task) => [task.id, keyOfTask(task, rules)]));
