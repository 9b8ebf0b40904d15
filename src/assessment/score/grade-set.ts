import { type Bench, measureBench } from '../../bench/index.ts';
import { type Fault, type FaultPart, findFaults } from '../../limits/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import { type MoveEffect, replayMoves, type Setting } from '../form/fit.ts';
import type { SetTask } from '../form/form.ts';
import type { AnswerOf } from '../form/work-schema.ts';
import type { ScoreLine, TaskGrade } from './form-grade.ts';
import type { SetKey } from './key.ts';
import { gradeLines, lineOf } from './line.ts';
import { scoreSettings } from './setting-score.ts';

export type SetGrade = {
  readonly grade: TaskGrade;
  /** the bench as it was left */
  readonly end: Setting;
  readonly effects: readonly { readonly move: number; readonly effect: MoveEffect }[];
};

const BLADE = 2;
/** Practice does not tell apart blades whose worth is this near the best one's. */
const AS_GOOD = 0.9;
/** What a blade earns that fits and is not the best for the job. */
const WILL_DO = 0.6;
/** mm that the fence may be off the width of cut */
const WIDTH_OFF = 1;
/** What a fault left on a part that was to be set takes away; a critical one fails besides. */
const LEFT_COST = 1;

const SET_PARTS: readonly FaultPart[] = ['blade', 'knife', 'guard', 'fence', 'insert'];

/** Grades the bench as it was left: what was chosen, how it is set, and what is still wrong with it. */
export function gradeSet(
  task: SetTask,
  answer: AnswerOf<'set'> | null,
  key: SetKey,
  rules: ExamRules,
): SetGrade {
  const { state, effects } = replayMoves(task, answer?.moves ?? []);
  const left = findFaults(
    state.bench,
    measureBench(state.bench),
    rules.sets,
    rules.catalogue,
  ).filter(({ part }) => SET_PARTS.includes(part));
  const lines = [
    ...choiceLines(task, state, key, left),
    ...settingLines(task, state.bench, rules),
    ...widthLines(task, state.bench),
    ...left.map((fault) =>
      lineOf(task, {
        what: 'left',
        about: fault.id,
        points: -LEFT_COST,
        of: 0,
        critical: fault.critical,
        values: { part: fault.part, severity: fault.severity },
      }),
    ),
  ];
  return { grade: gradeLines(task, lines), end: state, effects };
}

function choiceLines(
  task: SetTask,
  { bench, blade, knife, insert }: Setting,
  { blades, inserts }: SetKey,
  left: readonly Fault[],
): ScoreLine[] {
  const best = Math.max(0, ...blades.map(({ worth }) => worth));
  const worth = blades.find(({ id }) => id === blade)?.worth ?? null;
  const share = worth === null ? 0 : worth >= AS_GOOD * best ? 1 : WILL_DO;
  const { knife: on } = bench;
  const goesBetween =
    on !== null && on.thickness > bench.blade.plate && on.thickness < bench.blade.kerf;
  const knifeRight = goesBetween && left.every(({ part }) => part !== 'knife');
  const insertRight = inserts[blade]?.includes(insert) ?? false;
  return [
    lineOf(task, {
      what: 'blade',
      about: blade,
      points: BLADE * share,
      of: BLADE,
      values: { fits: worth !== null, worth, best },
    }),
    lineOf(task, { what: 'knife', about: knife ?? 'none', points: knifeRight ? 1 : 0, of: 1 }),
    lineOf(task, { what: 'insert', about: insert, points: insertRight ? 1 : 0, of: 1 }),
  ];
}

function settingLines(task: SetTask, bench: Bench, { sets }: ExamRules): ScoreLine[] {
  return scoreSettings(bench, task.settings, sets).map(({ measure, score, results }) => {
    const [first] = results;
    return lineOf(task, {
      what: 'setting',
      about: measure,
      // a part that is off meets nothing
      points: (score ?? 0) / 100,
      of: 1,
      values: {
        value: first?.value ?? null,
        unit: first?.unit ?? null,
        min: first?.min ?? null,
        max: first?.max ?? null,
        score,
      },
    });
  });
}

/** Across the grain the fence stands out of the way, so its distance is not asked. */
function widthLines(task: SetTask, { fence, job }: Bench): ScoreLine[] {
  if (job.cut === 'crosscut') return [];
  const isRight = Math.abs(fence.face - job.widthOfCut) <= WIDTH_OFF;
  return [
    lineOf(task, {
      what: 'job',
      about: 'fence.face',
      points: isRight ? 1 : 0,
      of: 1,
      values: { value: fence.face, wanted: job.widthOfCut },
    }),
  ];
}
