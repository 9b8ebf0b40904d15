import {
  type Attempt,
  type AttemptRules,
  figureAsked,
  hangRack,
  type Move,
  makeMove,
  startSetting,
  type Task,
} from '../../src/assessment/index.ts';
import {
  type Bench,
  bladeFrame,
  INSTRUMENTS,
  MEASURES,
  MEASURING_POINTS,
  type MeasuringPointId,
  readInstrument,
  SETTINGS,
  transition,
} from '../../src/bench/index.ts';
import { halfChord } from '../../src/geometry/index.ts';
import { chooseBlade, gradeBench, gradeSettings } from '../../src/grading/index.ts';
import { lookOver } from './exam-eyes.ts';

/** Somebody at one bench task, who does only what a hand can do there and has read the course. */
type AtWork = { readonly task: Task; readonly start: Bench; readonly rules: AttemptRules };

/** The bench after some moves, by the same steps as in the panel. */
export function benchAfter({ task, start, rules }: AtWork, moves: readonly Move[]): Bench {
  if (task.choose !== true || !rules.rack) {
    return moves.reduce((bench, move) => transition(bench, move as never).bench, start);
  }
  const rack = hangRack(start, rules.rack);
  return moves.reduce(
    (state, move) => makeMove(state, move, rack).state,
    startSetting({ ...rack, bench: start }),
  ).bench;
}

/** Blade, knife and insert as the page on choosing a blade advises anybody. */
function choose({ task, start, rules }: AtWork): Move[] {
  if (task.choose !== true || !rules.rack) return [];
  const [best] = chooseBlade({ bench: start, rack: rules.rack, sets: rules.sets });
  if (best === undefined || !best.fits) return [];
  const insert = [...hangRack(start, rules.rack).inserts]
    .sort((a, b) => a.slot - b.slot)
    .find(({ slot }) => slot >= best.blade.kerf + 1);
  return [
    { do: 'fit', what: 'blade', id: best.blade.id },
    ...(best.knife ? [{ do: 'fit', what: 'knife', id: best.knife.id } as const] : []),
    ...(insert ? [{ do: 'fit', what: 'insert', id: insert.id } as const] : []),
  ];
}

const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step + 1.001) }, (_, i) => from + i * step);

/** What a hand may try for one part, the usual place first. */
function placesOf(bench: Bench, part: 'blade' | 'knife' | 'guard' | 'fence'): Move[][] {
  const { stock, widthOfCut } = bench.job;
  const frame = bladeFrame(bench);
  switch (part) {
    case 'blade': {
      const usual = bench.blade.diameter / 2 - stock.thickness - bench.blade.gulletDepth;
      return range(-20, 20, 1).map((by) => [
        { do: 'set', setting: 'arbor.depth', to: Math.round(usual) + by },
      ]);
    }
    case 'knife': {
      const { knife } = bench;
      if (knife === null) return [];
      const tip = (drop: number) => Math.round((frame.tipRadius - drop - knife.reach) * 2) / 2;
      return [1, 0.5, 2, 5, 0, 10].flatMap((drop) =>
        range(-12, 30, 0.5).map((along): Move[] => [
          { do: 'set', setting: 'knife.along', to: 90 },
          { do: 'set', setting: 'knife.up', to: tip(drop) },
          { do: 'set', setting: 'knife.along', to: along },
        ]),
      );
    }
    case 'guard': {
      const { guard } = bench;
      if (guard === null) return [];
      const half = Math.round((guard.rear - guard.front) / 2);
      return [4, 3, 2, 6, 8, 10].flatMap((over) =>
        range(-150, 150, 5).map((by): Move[] => [
          { do: 'set', setting: 'guard.height', to: stock.thickness + over },
          { do: 'set', setting: 'guard.front', to: -half + by },
        ]),
      );
    }
    case 'fence': {
      const teeth = halfChord(frame.tipRadius, frame.depth);
      return range(-40, 60, 5).map((by): Move[] => [
        { do: 'set', setting: 'fence.face', to: widthOfCut },
        { do: 'set', setting: 'fence.end', to: -Math.round(teeth) + by },
      ]);
    }
  }
}

const CLAMPED = ['knife', 'guard', 'fence'] as const;

/** Worth of a bench for what is to be set: limits met, nothing critical left, and near the best place. */
function worthOf(bench: Bench, { task, rules }: AtWork): number {
  const { sets, catalogue } = rules;
  const settings = gradeSettings({ bench, sets, measures: task.settings });
  const outside = settings.results.filter(({ verdict }) => verdict === 'outside').length;
  const { faults } = gradeBench({ bench, sets, catalogue });
  return (settings.score ?? 0) - 1000 * outside - 100 * faults.length;
}

/** Sets part after part, trying each place by hand; every part is locked again. */
function setAll(at: AtWork, before: readonly Move[]): Move[] {
  const { task } = at;
  const wanted = new Set(task.settings.map((id) => MEASURES[id].part));
  const all = task.choose === true || task.cut === true;
  const moves: Move[] = [...before];
  for (const part of ['blade', 'knife', 'guard', 'fence'] as const) {
    if (!all && !wanted.has(part)) continue;
    const bench = benchAfter(at, moves);
    const clamp = CLAMPED.find((one) => one === part);
    if (clamp !== undefined && bench[clamp] === null) continue;
    const open: Move[] = clamp === undefined ? [] : [{ do: 'unlock', part: clamp }];
    const shut: Move[] = [
      ...(clamp === undefined ? [] : [{ do: 'lock', part: clamp } as const]),
      ...(part === 'guard' ? [{ do: 'rest-fingers' } as const] : []),
    ];
    const leave = [...open, ...shut];
    const tries = placesOf(bench, part)
      .filter((one) => one.every(isInRange))
      .map((one) => [...open, ...one, ...shut]);
    const best = [leave, ...tries]
      .map((one) => ({ one, worth: worthOf(benchAfter(at, [...moves, ...one]), at) }))
      .reduce((sofar, next) => (next.worth > sofar.worth ? next : sofar));
    moves.push(...best.one);
  }
  return moves.slice(before.length);
}

function isInRange(move: Move): boolean {
  if (move.do !== 'set') return true;
  const { least, most } = SETTINGS[move.setting];
  return move.to >= least && move.to <= most;
}

/** Reads a place with the finest tool that takes it. */
function measure(bench: Bench, at: MeasuringPointId): Move {
  const { instruments, take } = MEASURING_POINTS[at];
  const length = take(bench);
  const [tool] = [...instruments].sort(
    (a, b) => INSTRUMENTS[a].uncertainty - INSTRUMENTS[b].uncertainty,
  );
  const readable = [...instruments]
    .sort((a, b) => INSTRUMENTS[a].uncertainty - INSTRUMENTS[b].uncertainty)
    .find((one) => length !== null && readInstrument(INSTRUMENTS[one], length) !== null);
  const taken = readable ?? tool;
  if (taken === undefined) throw new Error(`${at} is taken with no tool`);
  const shown = length === null ? null : readInstrument(INSTRUMENTS[taken], length);
  return { do: 'measure', with: taken, at, read: shown };
}

/** A trial cut from the power on to the power off again. */
export const CUT: readonly Move[] = [
  { do: 'reconnect' },
  { do: 'start' },
  { do: 'feed', stopped: null },
  { do: 'stop' },
  { do: 'wait' },
  { do: 'isolate' },
];

/** Does a task as somebody would who knows how. */
export function doTask(at: AtWork): Attempt {
  const { task, start, rules } = at;
  const opening: Move[] = [{ do: 'isolate' }];
  const readings = (task.readings ?? []).map((place) => measure(start, place));
  const chosen = [...opening, ...readings, ...choose(at)];
  const isSet = task.settings.length > 0 || task.choose === true || task.cut === true;
  const set = isSet ? setAll(at, chosen) : [];
  return {
    task,
    start,
    actions: [...chosen, ...set, ...(task.cut === true ? CUT : [])],
    claims: task.faults
      ? lookOver(start, rules.sets).map((fault) => {
          const { part, remedies } = rules.catalogue.byId.get(fault)!;
          return { part, fault, remedy: remedies[0]! };
        })
      : [],
    said: (task.predict ?? []).map((asked) => ({
      id: asked.id,
      value: figureAsked(start, asked).value,
      after: 0,
    })),
  };
}
