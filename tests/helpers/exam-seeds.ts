import {
  type ExamRules,
  expectedScore,
  type FormGrade,
  gradeForm,
  makeForm,
  type PassMark,
  seedRandom,
  showForm,
} from '../../src/assessment/index.ts';
import { measureBench, readBench } from '../../src/bench/index.ts';
import { findFaults } from '../../src/limits/index.ts';
import { sitPerfectly } from './perfect-candidate.ts';
import { clickAtRandom, nameEverything } from './unfit-candidates.ts';

/** What came of many seeds of one blueprint. */
export type SeedReport = {
  readonly forms: number;
  /** seeds whose form could not be made, is no bench, or carries other faults than planned */
  readonly broken: readonly string[];
  /** seeds that the perfect candidate did not bring to 100 without a bar */
  readonly unsolved: readonly string[];
  readonly clicks: number;
  readonly clickPasses: number;
  readonly namedAllPasses: number;
  /** expected score over the stated population: least, mean, greatest */
  readonly expected: { readonly least: number; readonly mean: number; readonly greatest: number };
  /** ms of processor time, median */
  readonly making: number;
  readonly grading: number;
};

/** Lower than any mark somebody would set: who fails this fails all. */
const LOW: PassMark = { mark: 50, method: 'provisional', basis: 'lower than any in use' };

const processorMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** What is wrong with a form itself, or null. */
function brokenBy(
  form: ReturnType<typeof makeForm>,
  { sets, catalogue }: ExamRules,
): string | null {
  for (const task of form.tasks) {
    if (task.kind === 'react') continue;
    const read = readBench(task.bench);
    if (!read.ok) return `${task.id}: ${read.error.message}`;
    if (task.kind !== 'find') continue;
    const found = findFaults(task.bench, measureBench(task.bench), sets, catalogue);
    const planned = task.planted.map(({ fault }) => fault).sort();
    const derived = found.map(({ id }) => id).sort();
    if (planned.join() !== derived.join()) return `planned ${planned}, found ${derived}`;
  }
  return null;
}

const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Makes, sits and grades a form for each seed. @param clicksEach random clickers a form */
export function trySeeds(
  rules: ExamRules,
  seeds: readonly string[],
  clicksEach: number,
): SeedReport {
  const broken: string[] = [];
  const unsolved: string[] = [];
  const making: number[] = [];
  const grading: number[] = [];
  const expected: number[] = [];
  let clickPasses = 0;
  let namedAllPasses = 0;
  for (const seed of seeds) {
    const before = processorMs();
    const form = makeForm(rules, seed);
    making.push(processorMs() - before);
    const wrong = brokenBy(form, rules);
    if (wrong !== null) broken.push(`${seed}: ${wrong}`);
    expected.push(expectedScore(form, rules));
    // through JSON, as it is sent
    const shown = JSON.parse(JSON.stringify(showForm(form, rules)));
    const passes = (work: Parameters<typeof gradeForm>[0]['work']): FormGrade =>
      gradeForm({ form, work, rules, pass: LOW });
    const work = sitPerfectly(shown, rules);
    const start = processorMs();
    const perfect = passes(work);
    grading.push(processorMs() - start);
    if (perfect.score < 100 - 1e-6 || perfect.passed !== true) {
      unsolved.push(`${seed}: ${perfect.score}, ${perfect.bars.map(({ kind }) => kind)}`);
    }
    if (passes(nameEverything(shown, rules)).passed !== false) namedAllPasses += 1;
    for (let i = 0; i < clicksEach; i++) {
      const random = seedRandom(`click ${i} ${seed}`);
      if (passes(clickAtRandom(shown, rules, random)).passed !== false) clickPasses += 1;
    }
  }
  return {
    forms: seeds.length,
    broken,
    unsolved,
    clicks: seeds.length * clicksEach,
    clickPasses,
    namedAllPasses,
    expected: {
      least: Math.min(...expected),
      mean: expected.reduce((sum, one) => sum + one, 0) / expected.length,
      greatest: Math.max(...expected),
    },
    making: median(making),
    grading: median(grading),
  };
}

/** Greatest less least expected score, as a share of the mean. */
export const spreadOf = ({ expected: { least, mean, greatest } }: SeedReport): number =>
  (greatest - least) / mean;
