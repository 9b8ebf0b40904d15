import { type Bench, measureBench } from '../../bench/index.ts';
import { amend } from './amend.ts';
import type { Course } from './move-past.ts';

/**
 * How each setting is moved toward its limit. Spoilers go past the end by these, look-alikes stop
 * short of it. `tell` is what a practised person tells apart with the usual instrument (common
 * practice, no source).
 */

const hundredth = (value: number): number => Math.round(value * 100) / 100;
const whole = (value: number): number => Math.round(value);

/** How far the gullet roots at the top stand out from under the sides of the guard, mm. */
function gulletsShow({ arbor, blade, guard }: Bench) {
  if (guard === null) return null;
  const value = arbor.depth + guard.height - guard.sideDepth;
  return { value, limit: blade.diameter / 2 - blade.gulletDepth };
}

const slideGuard = (by: number) => (bench: Bench) => {
  const { guard } = bench;
  if (guard === null) return null;
  return amend(bench, { guard: { front: guard.front + by, rear: guard.rear + by } });
};

function lowerBlade(bench: Bench, by: number): Bench {
  const { arbor, blade, guard, knife } = bench;
  const depth = arbor.depth + by;
  const lowered = amend(bench, {
    arbor: { depth },
    ...(knife === null || knife.carriedBy === 'arbor' ? {} : { knife: { up: knife.up + by } }),
  });
  if (guard === null) return lowered;
  // deep enough sides go down with the blade: whether it is covered is another matter
  const hangs = Math.ceil(depth + guard.height - (blade.diameter / 2 - blade.gulletDepth)) + 2;
  return amend(lowered, { guard: { sideDepth: Math.max(guard.sideDepth, hangs) } });
}

export const COURSES = {
  bladeSmall: {
    measures: ['blade.sizeRatio'],
    end: 'min',
    tell: 0.01,
    move: (bench, by) => {
      const ratio = bench.blade.diameter / bench.arbor.largestBlade - by;
      return ratio <= 0.2
        ? null
        : amend(bench, { arbor: { largestBlade: whole(bench.blade.diameter / ratio) } });
    },
  },
  bladeLarge: {
    measures: ['blade.sizeRatio'],
    end: 'max',
    orElse: 1,
    tell: 0.01,
    move: (bench, by) => {
      const ratio = bench.blade.diameter / bench.arbor.largestBlade + by;
      return ratio > 1.6
        ? null
        : amend(bench, { arbor: { largestBlade: whole(bench.blade.diameter / ratio) } });
    },
  },
  overspeed: {
    measures: ['blade.speedUse'],
    end: 'max',
    orElse: 1,
    tell: 0.01,
    // marks are stamped in tens
    move: (bench, by) => {
      const use = bench.arbor.speed / bench.blade.maxSpeed + by;
      return use > 2
        ? null
        : amend(bench, { blade: { maxSpeed: 10 * whole(bench.arbor.speed / use / 10) } });
    },
  },
  bladeLow: { measures: ['blade.aboveStock'], end: 'min', orElse: 0, tell: 1, move: lowerBlade },
  runDown: {
    measures: ['arbor.runDown'],
    end: 'max',
    tell: 0.2,
    move: (bench, by) => amend(bench, { arbor: { runDown: hundredth(bench.arbor.runDown + by) } }),
  },
  knifeFar: {
    measures: ['knife.gapAtTable', 'knife.gapMax'],
    end: 'max',
    tell: 0.25,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { along: hundredth(bench.knife.along + by) } }),
  },
  knifeNear: {
    measures: ['knife.gapMin'],
    end: 'min',
    tell: 0.1,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { along: hundredth(bench.knife.along - by) } }),
  },
  knifeTouches: {
    end: 'min',
    read: (bench) => ({ value: Number(measureBench(bench)['knife.gapMin']), limit: 0 }),
    tell: 0.05,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { along: hundredth(bench.knife.along - by) } }),
  },
  knifeThin: {
    measures: ['knife.overPlate', 'knife.plateRatio'],
    end: 'min',
    tell: 0.05,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { thickness: hundredth(bench.knife.thickness - by) } }),
  },
  knifeThick: {
    measures: ['knife.underKerf'],
    end: 'min',
    tell: 0.05,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { thickness: hundredth(bench.knife.thickness + by) } }),
  },
  knifeLow: {
    measures: ['knife.tipDrop'],
    end: 'max',
    tell: 1,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { reach: hundredth(bench.knife.reach - by) } }),
  },
  knifeTall: {
    measures: ['knife.tipDrop'],
    end: 'min',
    tell: 0.5,
    move: (bench, by) => {
      const { knife } = bench;
      if (knife === null) return null;
      const reach = hundredth(knife.reach + by);
      // a longer knife is a longer arc of the same edge, which ends at its own radius
      const rest = hundredth(Math.max(0, reach - knife.edgeRadius));
      return amend(bench, { knife: { reach: hundredth(reach - rest), up: knife.up + rest } });
    },
  },
  knifeSideways: {
    measures: ['knife.sideClear'],
    end: 'min',
    orElse: 0,
    tell: 0.1,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { lateral: hundredth(bench.knife.lateral - by) } }),
  },
  knifeArc: {
    measures: ['knife.arcShare'],
    end: 'min',
    tell: 0.02,
    move: (bench, by) =>
      bench.knife && amend(bench, { knife: { along: hundredth(bench.knife.along + 10 * by) } }),
  },
  knifeFlat: {
    measures: ['knife.radiusOver'],
    end: 'max',
    tell: 1,
    move: (bench, by) =>
      amend(bench, {
        arbor: { largestBlade: Math.max(bench.blade.diameter, bench.arbor.largestBlade - 2 * by) },
      }),
  },
  guardHigh: {
    measures: ['guard.clearance'],
    end: 'max',
    read: gulletsShow,
    tell: 2,
    move: (bench, by) =>
      bench.guard && amend(bench, { guard: { height: bench.guard.height + by } }),
  },
  guardBack: {
    measures: ['guard.leadFront'],
    end: 'min',
    orElse: 0,
    tell: 3,
    move: (bench, by) => slideGuard(by)(bench),
  },
  guardForward: {
    measures: ['guard.leadRear'],
    end: 'min',
    orElse: 0,
    tell: 3,
    move: (bench, by) => slideGuard(-by)(bench),
  },
  fenceLong: {
    measures: ['fence.overrun', 'fence.pastGullets'],
    end: 'max',
    tell: 3,
    move: (bench, by) => amend(bench, { fence: { end: whole(bench.fence.end + by) } }),
  },
  fenceCloses: {
    measures: ['fence.toe'],
    end: 'min',
    orElse: 0,
    tell: 0.2,
    move: (bench, by) => amend(bench, { fence: { toe: hundredth(bench.fence.toe - by) } }),
  },
  insertWide: {
    measures: ['insert.gapMax'],
    end: 'max',
    // one side may be wide for the work on a slant; both wide is a worn or wrong insert
    read: ({ insert: { gaps } }) => ({ value: Math.min(...gaps), limit: 5 }),
    tell: 0.5,
    move: (bench, by) => {
      const [left, right] = bench.insert.gaps;
      return amend(bench, { insert: { gaps: [hundredth(left + by), hundredth(right + by)] } });
    },
  },
  insertProud: {
    measures: ['insert.step'],
    end: 'max',
    orElse: 0.5,
    tell: 0.1,
    move: (bench, by) => amend(bench, { insert: { step: hundredth(bench.insert.step + by) } }),
  },
  insertLow: {
    measures: ['insert.step'],
    end: 'min',
    orElse: -0.5,
    tell: 0.1,
    move: (bench, by) => amend(bench, { insert: { step: hundredth(bench.insert.step - by) } }),
  },
  stickShort: {
    measures: ['stick.length'],
    end: 'min',
    tell: 5,
    move: ({ people, ...bench }, by) =>
      people.pushStick &&
      amend(
        { people, ...bench },
        { people: { pushStick: { length: people.pushStick.length - by } } },
      ),
  },
  stickLate: {
    measures: ['stick.lastFed'],
    end: 'min',
    tell: 10,
    move: ({ people, ...bench }, by) =>
      people.pushStick &&
      amend(
        { people, ...bench },
        { people: { pushStick: { usedForLast: people.pushStick.usedForLast - by } } },
      ),
  },
  lightLow: {
    measures: ['place.light'],
    end: 'min',
    tell: 10,
    move: (bench, by) => amend(bench, { place: { light: bench.place.light - by } }),
  },
  surroundDim: {
    measures: ['place.lightAround'],
    end: 'min',
    tell: 10,
    move: (bench, by) =>
      amend(bench, { place: { lightAround: (bench.place.lightAround ?? 0) - by } }),
  },
  stockLong: {
    measures: ['stock.tipsBy'],
    end: 'max',
    orElse: 0,
    tell: 20,
    move: (bench, by) =>
      amend(bench, { job: { stock: { length: bench.job.stock.length + 2 * by } } }),
  },
  tableShort: {
    measures: ['table.outfeedFromSpindle', 'table.outfeedFromTeeth'],
    end: 'min',
    tell: 5,
    move: (bench, by) => amend(bench, { table: { outfeed: bench.table.outfeed - by } }),
  },
} as const satisfies Readonly<Record<string, Course>>;
