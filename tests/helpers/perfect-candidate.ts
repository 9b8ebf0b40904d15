import {
  type Answer,
  type AnswerOf,
  type FormForCandidate,
  type Move,
  replayMoves,
  type ShownTask,
  type Work,
} from '../../src/assessment/index.ts';
import { type Bench, measureBench } from '../../src/bench/index.ts';
import { inchesToMm } from '../../src/geometry/index.ts';
import { chooseBlade } from '../../src/grading/index.ts';
import { type FaultCatalogue, isDecided, judge, type LimitSet } from '../../src/limits/index.ts';
import { lookOver } from './exam-eyes.ts';
import { RIGHT_STEPS } from './right-steps.ts';

/**
 * Somebody who knows the trade, the rules as published and the course, and has what is sent and
 * nothing else: no form, no seed, no key.
 */
export type Knowledge = {
  readonly sets: readonly LimitSet[];
  /** the course: what to do about each kind of fault */
  readonly catalogue: FaultCatalogue;
};

type Shown<Kind extends ShownTask['kind']> = Extract<ShownTask, { kind: Kind }>;

function find({ bench }: Shown<'find'>, { sets, catalogue }: Knowledge): AnswerOf<'find'> {
  const findings = lookOver(bench, sets).map((fault) => {
    const { part, remedies } = catalogue.byId.get(fault)!;
    return { part, fault, remedy: remedies[0]!, confidence: 'certain' as const };
  });
  return { kind: 'find', actions: [{ do: 'isolate' }, { do: 'try', part: 'knife' }], findings };
}

/** Every published limit met, with half the room to spare where the rules say what is best. */
function isWell(bench: Bench, settings: readonly string[], sets: readonly LimitSet[]): boolean {
  const measures = measureBench(bench);
  return sets
    .flatMap((set) => judge(bench, measures, set))
    .filter((result) => settings.includes(result.measure) && isDecided(result))
    .every(({ holds, closeness }) => holds && (closeness ?? 1) >= 0.5);
}

function set(task: Shown<'set'>, { sets }: Knowledge): AnswerOf<'set'> {
  const rack = {
    schema: 'rack/1' as const,
    id: 'rack',
    title: 'Rack',
    blades: [...task.blades],
    knives: [...task.knives],
  };
  // the page on choosing a blade gives the same advice to anybody
  const best = chooseBlade({ bench: task.bench, rack, sets })[0]!;
  const { blade } = best;
  const knife = best.knife!;
  const insert = [...task.inserts]
    .sort((a, b) => a.slot - b.slot)
    .find(({ slot }) => slot >= blade.kerf + 1)!;
  const { stock, widthOfCut } = task.bench.job;
  const depth = blade.diameter / 2 - stock.thickness - blade.gulletDepth;
  const half = Math.sqrt((blade.diameter / 2) ** 2 - depth ** 2);
  const guard = task.bench.guard!;
  const moves = (along: number, drop: number): Move[] => [
    { do: 'isolate' },
    { do: 'fit', what: 'blade', id: blade.id },
    { do: 'fit', what: 'knife', id: knife.id },
    { do: 'fit', what: 'insert', id: insert.id },
    { do: 'set', setting: 'knife.along', to: 60 },
    { do: 'set', setting: 'arbor.depth', to: depth },
    { do: 'set', setting: 'knife.up', to: blade.diameter / 2 - drop - knife.reach },
    { do: 'set', setting: 'knife.along', to: along },
    { do: 'lock', part: 'knife' },
    { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' },
    { do: 'unlock', part: 'guard' },
    { do: 'set', setting: 'guard.height', to: stock.thickness + 4 },
    { do: 'set', setting: 'guard.front', to: -(guard.rear - guard.front) / 2 },
    { do: 'lock', part: 'guard' },
    { do: 'rest-fingers' },
    { do: 'unlock', part: 'fence' },
    { do: 'set', setting: 'fence.face', to: widthOfCut },
    { do: 'set', setting: 'fence.end', to: -half - 5 },
    { do: 'lock', part: 'fence' },
  ];
  for (const drop of [1, 0.5, 2, 5]) {
    for (let along = 9; along >= -9; along -= 0.5) {
      const tried = moves(along, drop);
      const { bench } = replayMoves(task, tried).state;
      const clear = Number(measureBench(bench)['knife.gapMin']) > 1;
      if (clear && isWell(bench, task.settings, sets)) return { kind: 'set', moves: tried };
    }
  }
  return { kind: 'set', moves: moves(2, 1) };
}

function plan(task: Shown<'plan'>, { sets }: Knowledge): AnswerOf<'plan'> {
  const { fence, table, job } = task.bench;
  const asked = (measure: string) =>
    Math.max(
      0,
      ...sets
        .flatMap((one) => judge(task.bench, measureBench(task.bench), one))
        .filter((result) => result.measure === measure && isDecided(result))
        .map(({ min }) => min ?? 0),
    );
  const longest = [...task.sticks].filter(
    ({ length, usedForLast }) =>
      length > 0 && length >= asked('stick.length') && usedForLast >= asked('stick.lastFed'),
  )[0]!;
  const tips = Number(measureBench(task.bench)['stock.tipsBy']) > 0;
  const end = task.ends.find(({ by, at }) => {
    if (!tips) return by === 'nobody';
    return by === 'extension' && at !== null && at >= table.outfeed + job.stock.length / 2;
  })!;
  const stance = task.stances.find(({ z }) => z < 0 || z > fence.face)!;
  return { kind: 'plan', stance: stance.id, stick: longest.id, end: end.id };
}

function react({ title, choices }: Shown<'react'>): AnswerOf<'react'> {
  const order = RIGHT_STEPS[title] ?? [];
  const steps = order.flatMap((start) => choices.filter(({ text }) => text.startsWith(start)));
  return { kind: 'react', steps: steps.map(({ id }) => id) };
}

function limit(task: Shown<'limit'>, { sets }: Knowledge): AnswerOf<'limit'> {
  const results = sets
    .filter(({ id }) => id === task.set)
    .flatMap((one) => judge(task.bench, measureBench(task.bench), one));
  const result = results.find(({ title }) => title === task.title)!;
  const inches = task.unit === 'in';
  const figure = result[task.end]!;
  if (task.ask === 'figure') {
    return { kind: 'limit', value: inches ? figure / 25.4 : figure, within: [] };
  }
  const published = sets.flatMap((one) => one.limits).find(({ id }) => id === result.limit)!.wanted;
  if (published.kind !== 'size') throw new Error('not a figure');
  const meets = (reading: number): boolean => {
    const value = inches ? inchesToMm(reading) : reading;
    const { min, max } = result;
    const overMin =
      min === null || value > min + 1e-6 || (published.minInclusive && value >= min - 1e-6);
    const underMax =
      max === null || value < max - 1e-6 || (published.maxInclusive && value <= max + 1e-6);
    return overMin && underMax;
  };
  const within = task.readings.filter(({ value }) => meets(value)).map(({ id }) => id);
  return { kind: 'limit', value: null, within };
}

export function sitPerfectly(form: FormForCandidate, knowledge: Knowledge): Work {
  return Object.fromEntries(form.tasks.map((task) => [task.id, answer(task, knowledge)]));
}

function answer(task: ShownTask, knowledge: Knowledge): Answer {
  switch (task.kind) {
    case 'find':
      return find(task, knowledge);
    case 'set':
      return set(task, knowledge);
    case 'plan':
      return plan(task, knowledge);
    case 'react':
      return react(task);
    case 'limit':
      return limit(task, knowledge);
  }
}
