import { type Bench, measureBench } from '../../bench/index.ts';
import { mmToInches } from '../../geometry/index.ts';
import { isDecided, judgeLimit, type Limit, type LimitSet } from '../../limits/index.ts';
import type { Estimate, SlotOf } from '../blueprint/index.ts';
import { makeSoundBench } from '../plant/index.ts';
import type { Random } from '../random.ts';
import type { ExamRules } from './exam-rules.ts';
import type { LimitTask } from './form.ts';
import { lettered } from './lettered.ts';

type End = 'min' | 'max';
type Question = {
  readonly set: LimitSet;
  readonly limit: Limit;
  readonly end: End;
  readonly ask: LimitTask['ask'];
  readonly estimate: number;
};

/** The end of a limit on one bench, in the unit it was published in; null where it has none there. */
export function figureOf(limit: Limit, end: End, bench: Bench): number | null {
  const figure = judgeLimit(limit, bench, measureBench(bench))[end];
  if (figure === null) return null;
  const published = limit.published === 'in' ? mmToInches(figure) : figure;
  return Math.round(published * 10_000) / 10_000;
}

/** A title that holds a figure would tell the answer. */
const tells = (limit: Limit): boolean => /\d/.test(limit.title);

function estimateQuestion(
  { published, asWritten }: Limit,
  end: End,
  ask: LimitTask['ask'],
  { limit }: Estimate,
) {
  const inches = published === 'in' ? limit.inches : 0;
  const hangs = typeof asWritten[end] === 'number' ? 0 : limit.hangs;
  return limit[ask] + inches + hangs;
}

/** Nothing is not asked for as a figure: "more than 0" is a question of sorting readings. */
const asksAbout = (limit: Limit, end: End, bench: Bench): readonly LimitTask['ask'][] =>
  figureOf(limit, end, bench) === 0 ? ['within'] : ['figure', 'within'];

/** Everything that can be asked of the figures in force on this bench. */
function questionsOn(bench: Bench, { sets, estimate }: ExamRules): Question[] {
  const measures = measureBench(bench);
  return sets.flatMap((set) =>
    set.limits
      .filter((limit) => limit.wanted.kind === 'size' && !tells(limit))
      .filter((limit) => isDecided(judgeLimit(limit, bench, measures)))
      .flatMap((limit) =>
        (['min', 'max'] as const)
          .filter((end) => figureOf(limit, end, bench) !== null)
          .flatMap((end) =>
            asksAbout(limit, end, bench).map((ask) => {
              return {
                set,
                limit,
                end,
                ask,
                estimate: estimateQuestion(limit, end, ask, estimate),
              };
            }),
          ),
      ),
  );
}

/** Readings about a figure: on it, just to each side, and well to one side. */
function readingsAbout(figure: number, random: Random) {
  const step = Math.max(Math.abs(figure) * 0.04, 0.2);
  const side = random.pick([-1, 1]);
  const values = [figure, figure - step, figure + step, figure + side * 4 * step];
  const rounded = values.map((value) => ({ value: Math.round(value * 100) / 100 }));
  return lettered(rounded, random);
}

const DRAWS = 200;
const TOLERANCE = 1;

/** Questions on different limits whose mean difficulty is that of the plain kinds, half and half. */
function drawQuestions(all: readonly Question[], count: number, rules: ExamRules, random: Random) {
  const { figure, within } = rules.estimate.limit;
  const target = (figure + within) / 2;
  let nearest: Question[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let draw = 0; draw < DRAWS && least > TOLERANCE; draw++) {
    const drawn: Question[] = [];
    for (const one of random.sample(all, all.length)) {
      if (drawn.length === count) break;
      if (drawn.every(({ limit }) => limit.measure !== one.limit.measure)) drawn.push(one);
    }
    if (drawn.length < count) continue;
    const mean = drawn.reduce((sum, { estimate }) => sum + estimate, 0) / count;
    if (Math.abs(mean - target) >= least) continue;
    least = Math.abs(mean - target);
    nearest = drawn;
  }
  return nearest;
}

/**
 * Questions about figures of the rules in force.
 * @throws RangeError when the limit sets have fewer figures than are asked for
 */
export function makeLimit(slot: SlotOf<'limit'>, rules: ExamRules, random: Random): LimitTask[] {
  const { blueprint, benches, sets, catalogue } = rules;
  const bench = makeSoundBench(blueprint, benches, sets, catalogue, random);
  const drawn = drawQuestions(questionsOn(bench, rules), slot.count, rules, random);
  if (drawn.length < slot.count) {
    throw new RangeError(
      `The limits of the blueprint ${blueprint.id} have too few figures to ask.`,
    );
  }
  return drawn.map(({ set, limit, end, ask, estimate }, i) => ({
    id: `limit-${i + 1}`,
    kind: 'limit',
    weight: slot.weight / slot.count,
    estimate,
    bench,
    ask,
    set: set.id,
    setTitle: set.title,
    title: limit.title,
    end,
    unit: limit.published,
    readings: ask === 'figure' ? [] : readingsAbout(figureOf(limit, end, bench) ?? 0, random),
    limit: limit.id,
  }));
}
