import { replay } from '../../bench/index.ts';
import { type Detection, type Judgement, measureCalibration } from '../../grading/index.ts';
import type { PassMark, SlotKind } from '../blueprint/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { Form, FormTask } from '../form/form.ts';
import type { Answer, AnswerOf, Work } from '../form/work-schema.ts';
import type { Bar, FormGrade, TaskGrade } from './form-grade.ts';
import { gradeFind } from './grade-find.ts';
import { gradeLimit } from './grade-limit.ts';
import { gradePlan } from './grade-plan.ts';
import { gradeReact } from './grade-react.ts';
import { gradeSet } from './grade-set.ts';
import type { FormKey, TaskKey } from './key.ts';
import { keyOf } from './key-of.ts';

/**
 * d' under which naming faults counts as luck. Naming everything and naming nothing both come to 0;
 * a person who finds half and names two that are not there comes to about 2. Common practice, no source.
 */
const LUCK = 1;

type Graded = {
  readonly grade: TaskGrade;
  readonly bars: readonly Bar[];
  readonly detection: Detection | null;
  readonly judgements: readonly Judgement[];
};

const plainly = (grade: TaskGrade): Graded => ({
  grade,
  bars: [],
  detection: null,
  judgements: [],
});

/** The answer to a task, when it is one of its kind. */
function answerTo<Kind extends Answer['kind']>(
  work: Work,
  { id, kind }: { readonly id: string; readonly kind: Kind },
): AnswerOf<Kind> | null {
  const answer = Object.hasOwn(work, id) ? work[id] : undefined;
  return answer?.kind === kind ? (answer as AnswerOf<Kind>) : null;
}

function keyFor<Kind extends TaskKey['kind']>(
  key: FormKey,
  { id, kind }: { readonly id: string; readonly kind: Kind },
): Extract<TaskKey, { kind: Kind }> {
  const found = key[id];
  if (found?.kind !== kind) throw new RangeError(`The key has nothing for the task ${id}.`);
  return found as Extract<TaskKey, { kind: Kind }>;
}

/** Hands at the blade with the supply on: once is enough. */
function bareHands(task: string, effects: readonly { readonly kind: string }[]): Bar[] {
  const times = effects.filter(({ kind }) => kind === 'not-isolated').length;
  return times === 0 ? [] : [{ kind: 'not-isolated', task, times }];
}

function gradeTask(task: FormTask, work: Work, key: FormKey, rules: ExamRules): Graded {
  switch (task.kind) {
    case 'find': {
      const answer = answerTo(work, task);
      const { effects } = replay(task.bench, answer?.actions ?? []);
      const { grade, detection, judgements } = gradeFind(task, answer, rules);
      const bars = bareHands(
        task.id,
        effects.map(({ effect }) => effect),
      );
      const sensitivity = detection?.sensitivity ?? null;
      if (sensitivity !== null && sensitivity < LUCK) {
        bars.push({ kind: 'no-better-than-luck', task: task.id, sensitivity });
      }
      return { grade, bars, detection, judgements };
    }
    case 'set': {
      const { grade, effects } = gradeSet(task, answerTo(work, task), keyFor(key, task), rules);
      const bars = bareHands(
        task.id,
        effects.map(({ effect }) => effect),
      );
      return { ...plainly(grade), bars };
    }
    case 'plan':
      return plainly(gradePlan(task, answerTo(work, task), keyFor(key, task)));
    case 'react':
      return plainly(gradeReact(task, answerTo(work, task), keyFor(key, task)));
    case 'limit':
      return plainly(gradeLimit(task, answerTo(work, task), keyFor(key, task)));
  }
}

/** Mean of scores by weight; 0 of nothing. */
function weighted(grades: readonly TaskGrade[]): number {
  const all = grades.reduce((sum, { weight }) => sum + weight, 0);
  return all === 0 ? 0 : grades.reduce((sum, { weight, score }) => sum + weight * score, 0) / all;
}

/** Kinds of task in which less was scored than any part may. */
function weakParts(grades: readonly TaskGrade[], least: number): Bar[] {
  const kinds = [...new Set(grades.map(({ kind }) => kind))];
  return kinds.flatMap((part: SlotKind): Bar[] => {
    const score = weighted(grades.filter(({ kind }) => kind === part));
    return score < least ? [{ kind: 'weak-part', part, score, least }] : [];
  });
}

/** Rounding in the last bit must not fail anybody. */
const MARK_SLACK = 1e-6;

/**
 * Grades a whole form from what was done, by itself: pure, so that grading it again gives the same.
 * Critical misses, hands at a live blade, naming by luck and a part too weak fail it whatever the
 * score; then the pass mark decides, and where none was set nobody has passed or failed.
 * @param pass the mark in force; that of the blueprint when left out
 */
export function gradeForm({
  form,
  work,
  rules,
  pass = rules.blueprint.pass,
  key = keyOf(form, rules),
}: {
  readonly form: Form;
  readonly work: Work;
  readonly rules: ExamRules;
  readonly pass?: PassMark;
  readonly key?: FormKey;
}): FormGrade {
  const graded = form.tasks.map((task) => gradeTask(task, work, key, rules));
  const tasks = graded.map(({ grade }) => grade);
  const score = weighted(tasks);
  const bars: Bar[] = [
    ...tasks.flatMap(({ lines }) =>
      lines.filter(({ critical }) => critical).map((line): Bar => ({ kind: 'critical', line })),
    ),
    ...graded.flatMap((one) => one.bars),
    ...weakParts(tasks, rules.blueprint.leastPart),
  ];
  if (pass !== 'not-set-yet' && score < pass.mark - MARK_SLACK) {
    bars.push({ kind: 'below-mark', score, mark: pass.mark });
  }
  const undecided = pass === 'not-set-yet' && bars.length === 0;
  return {
    score,
    passed: undecided ? null : bars.length === 0,
    bars,
    tasks,
    detection: graded.find(({ detection }) => detection !== null)?.detection ?? null,
    calibration: measureCalibration(graded.flatMap(({ judgements }) => judgements)),
  };
}
