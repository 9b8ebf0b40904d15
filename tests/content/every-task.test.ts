import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type Attempt,
  type AttemptGrade,
  type AttemptRules,
  figureAsked,
  gradeAttempt,
  makeFreshBench,
  type Task,
} from '../../src/assessment/index.ts';
import { isDecided } from '../../src/limits/index.ts';
import {
  loadBenches,
  loadFaultCatalogue,
  loadLimitSets,
  loadRacks,
  loadTasks,
} from '../../src/store/content-files.ts';
import { doTask } from '../helpers/task-candidate.ts';

/**
 * Every task there is, done by somebody who does only what a hand can do at the bench. What cannot be done
 * is told with the line of the file that asks for it.
 */
const SETS = loadLimitSets('content', 'no-such-folder');
const RACKS = loadRacks();
const SEEDS = ['one', 'two', 'three'];

function rulesFor(task: Task): AttemptRules {
  const rack = task.rack === undefined ? [...RACKS.values()][0] : RACKS.get(task.rack);
  return {
    sets: task.limits.map((id) => SETS.get(id)!),
    catalogue: loadFaultCatalogue(),
    rack: task.choose === true ? (rack ?? null) : null,
  };
}

const benchesFor = (task: Task) =>
  (task.spoil ? SEEDS : ['one']).map((seed) =>
    makeFreshBench(loadBenches().get(task.bench)!, task.spoil ?? null, seed),
  );

/** `content/tasks/ID.yaml:12`, the first line of the file that has these words. */
function lineWith(task: Task, words: string): string {
  const file = `content/tasks/${task.id}.yaml`;
  const lines = readFileSync(file, 'utf8').split('\n');
  const at = lines.findIndex((line) => line.includes(words));
  return `${file}:${at + 1}`;
}

/** All that a grade still lacks of full marks, each with where it is asked for; empty when nothing. */
function lacksOf(task: Task, grade: AttemptGrade): string[] {
  const at = (words: string, says: string) => `${lineWith(task, words)}: ${says}`;
  const { claims, settings, readings, choice, predictions, cut } = grade;
  const parts = new Set(task.settings.map((id) => id.split('.')[0]));
  return [
    ...(claims?.missed ?? []).map(({ id }) => at('faults:', `${id} was not found`)),
    ...(claims?.wrong ?? []).map(({ claim }) =>
      at('faults:', `${claim.fault} was named, and the bench has none`),
    ),
    ...(claims?.found ?? []).flatMap(({ fault, remedyRight }) =>
      remedyRight ? [] : [at('faults:', `${fault.id} was dealt with wrongly`)],
    ),
    ...(settings?.results ?? []).flatMap((result) =>
      !isDecided(result) || result.grade === 'should' || result.verdict === 'within'
        ? []
        : [at(result.measure, `${result.measure} is ${result.value}, ${result.limit} is not met`)],
    ),
    ...grade.left
      .filter(({ part }) => parts.has(part))
      .map(({ id }) => at('settings:', `${id} is left, and no hand can put it right`)),
    ...(readings?.results ?? []).flatMap(({ at: place, taken }) =>
      taken?.right ? [] : [at(place, `${place} cannot be read right`)],
    ),
    ...(choice?.lines ?? []).flatMap(({ what, verdict, reasons }) =>
      verdict === 'right'
        ? []
        : [at('choose:', `${what}: ${verdict}: ${reasons.map(({ says }) => says).join('; ')}`)],
    ),
    ...(predictions?.results ?? []).flatMap(({ id, right }) =>
      right ? [] : [at(id, `${id} cannot be said right`)],
    ),
    ...(cut?.lines ?? []).flatMap(({ what, held }) =>
      held
        ? []
        : [at('cut:', `${what} does not hold: ${cut?.outcome ?? 'no cut'} ${sayCritical(grade)}`)],
    ),
  ];
}

const sayCritical = ({ critical }: AttemptGrade): string =>
  critical
    .map((one) =>
      one.kind === 'fed-with-faults'
        ? `${one.kind} (${one.faults.map(({ id }) => id).join(', ')})`
        : one.kind === 'fed-in-line'
          ? `${one.kind} (${one.who.join(', ')})`
          : one.kind,
    )
    .join('; ');

const untouched = (task: Task, start: Attempt['start']): Attempt => ({
  task,
  start,
  actions: [],
  claims: [],
  said: [],
});

describe.each([...loadTasks().values()])('the task $id', (task) => {
  it('names a bench and limit sets that are there', () => {
    expect(loadBenches().has(task.bench), lineWith(task, 'bench:')).toBe(true);
    for (const id of task.limits) expect(SETS.has(id), lineWith(task, 'limits:')).toBe(true);
  });

  it('can be done to the full by somebody who knows how', () => {
    const rules = rulesFor(task);
    for (const start of benchesFor(task)) {
      const grade = gradeAttempt(doTask({ task, start, rules }), rules);
      expect(lacksOf(task, grade)).toEqual([]);
      expect(grade.critical).toEqual([]);
      expect(grade.score).toBeGreaterThanOrEqual(60);
    }
  });

  it('is not done by leaving it alone, nor by the answer nought', () => {
    const rules = rulesFor(task);
    for (const start of benchesFor(task)) {
      const nothing = untouched(task, start);
      expect(lacksOf(task, gradeAttempt(nothing, rules)), lineWith(task, 'id:')).not.toEqual([]);
      const said = (task.predict ?? []).map(({ id }) => ({ id, value: 0, after: 0 }));
      const { predictions } = gradeAttempt({ ...nothing, said }, rules);
      for (const { id, right } of predictions?.results ?? []) {
        expect(right, `${lineWith(task, id)}: nought counts as right; within is too wide`).toBe(
          false,
        );
      }
    }
  });

  it.runIf(task.predict !== undefined)('asks for figures that its change changes', () => {
    for (const asked of task.predict ?? []) {
      if (asked.change === undefined) continue;
      for (const start of benchesFor(task)) {
        const { change: _change, ...plain } = asked;
        const off = Math.abs(figureAsked(start, asked).value - figureAsked(start, plain).value);
        expect(off, `${lineWith(task, asked.id)}: the change makes no difference`).toBeGreaterThan(
          asked.within,
        );
      }
    }
  });
});
