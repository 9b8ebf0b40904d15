import { type Bench, measureBench } from '../../bench/index.ts';
import { type Fault, findFaults } from '../../limits/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { EndCare, PlanTask, Stance, Stick } from '../form/form.ts';
import type { PlanKey } from './key.ts';

const withStance = (bench: Bench, { x, z }: Stance): Bench => ({
  ...bench,
  people: { ...bench.people, operator: { ...bench.people.operator, x, z } },
});

const withStick = (bench: Bench, { length, usedForLast }: Stick): Bench => ({
  ...bench,
  people: {
    ...bench.people,
    pushStick: length === 0 ? null : { ...bench.people.pushStick, length, usedForLast },
  },
});

/** An extension carries the end as the table does; somebody who takes off carries it too. */
function withEnd(bench: Bench, { by, at }: EndCare): Bench {
  if (by === 'extension' && at !== null) {
    return { ...bench, table: { ...bench.table, outfeed: at } };
  }
  if (by === 'nobody' || at === null) return bench;
  const { x: _x, z: _z, ...worn } = bench.people.operator;
  return { ...bench, people: { ...bench.people, takeOff: { ...worn, x: at, z: -200 } } };
}

/** The faults each choice would bring to the bench, on the parts a plan is about. */
export function planKey(task: PlanTask, { sets, catalogue }: ExamRules): PlanKey {
  const { bench } = task;
  const faultsOf = (planned: Bench, parts: readonly Fault['part'][]) =>
    findFaults(planned, measureBench(planned), sets, catalogue).filter(({ part }) =>
      parts.includes(part),
    );
  return {
    kind: 'plan',
    parts: {
      stance: task.stances.map((one) => ({
        id: one.id,
        faults: faultsOf(withStance(bench, one), ['people']),
      })),
      stick: task.sticks.map((one) => ({
        id: one.id,
        faults: faultsOf(withStick(bench, one), ['push-stick', 'people']),
      })),
      end: task.ends.map((one) => ({
        id: one.id,
        faults: faultsOf(withEnd(bench, one), ['stock', 'table', 'people']),
      })),
    },
  };
}
