import { atMost, degreesToRadians, halfChord, radiansToDegrees } from '../../geometry/index.ts';
import { knifeEdge } from '../knife-edge.ts';
import type { Bench, Guard, Knife } from '../schema/index.ts';
import type { Measures } from './catalogue.ts';
import { knifeArcShare, knifeGaps } from './knife-gap.ts';

/** Lengths every measure starts from, mm, in the blade plane. */
export type Frame = {
  /** R, over the tooth tips */
  readonly tipRadius: number;
  /** Rg, to the gullet roots */
  readonly rootRadius: number;
  /** d, arbor axis below the table */
  readonly depth: number;
  /** half-chord of the tip circle at table level: the front teeth stand at -halfAtTable */
  readonly halfAtTable: number;
  /** t, the stock as the blade meets it: t / cos(tilt) */
  readonly stock: number;
};

export function bladeFrame(bench: Bench): Frame {
  const tipRadius = bench.blade.diameter / 2;
  const depth = bench.arbor.depth;
  return {
    tipRadius,
    rootRadius: tipRadius - bench.blade.gulletDepth,
    depth,
    halfAtTable: halfChord(tipRadius, depth),
    stock: bench.job.stock.thickness / Math.cos(degreesToRadians(bench.arbor.tilt)),
  };
}

const KNIFE_OFF = {
  'knife.gapMax': null,
  'knife.gapMin': null,
  'knife.gapAtTable': null,
  'knife.tipHeight': null,
  'knife.tipDrop': null,
  'knife.overPlate': null,
  'knife.underKerf': null,
  'knife.plateRatio': null,
  'knife.sideClear': null,
  'knife.radiusOver': null,
  'knife.arcShare': null,
  'knife.play': null,
};

function measureKnife(knife: Knife, bench: Bench, frame: Frame) {
  const { blade, arbor } = bench;
  const edge = knifeEdge(knife, frame.depth);
  const axis = { x: 0, y: -frame.depth };
  const gaps = knifeGaps(edge, axis, frame.tipRadius);
  const tipHeight = knife.up + knife.reach - frame.depth;
  const underKerf = blade.kerf - knife.thickness;
  return {
    'knife.gapMax': gaps.max,
    'knife.gapMin': gaps.min,
    'knife.gapAtTable': gaps.atTable,
    'knife.tipHeight': tipHeight,
    'knife.tipDrop': frame.tipRadius - frame.depth - tipHeight,
    'knife.overPlate': knife.thickness - blade.plate,
    'knife.underKerf': underKerf,
    'knife.plateRatio': knife.thickness / blade.plate,
    'knife.sideClear': underKerf / 2 - Math.abs(knife.lateral) - knife.play,
    'knife.radiusOver': knife.edgeRadius - arbor.largestBlade / 2,
    'knife.arcShare': knifeArcShare(edge, axis, frame.tipRadius),
    'knife.play': knife.play,
  };
}

const GUARD_OFF = {
  'guard.clearance': null,
  'guard.leadFront': null,
  'guard.leadRear': null,
  'guard.coversGullets': null,
  'guard.play': null,
};

/** A self-closing or counterweighted guard rides on the work until it sticks; the others stay put. */
const ridesOnWork = (guard: Guard): boolean =>
  (guard.kind === 'self-closing' || guard.kind === 'counterweighted') && !guard.stuck;

function measureGuard(guard: Guard, frame: Frame) {
  return {
    'guard.clearance': ridesOnWork(guard) ? 0 : guard.height - frame.stock,
    'guard.leadFront': -guard.front - frame.halfAtTable,
    'guard.leadRear': guard.rear - frame.halfAtTable,
    'guard.coversGullets': atMost(frame.depth + guard.height - guard.sideDepth, frame.rootRadius),
    'guard.play': guard.play,
  };
}

/** Directly above the arbor axis the blade stands highest; below its own top it meets the stock. */
function measureCut(bench: Bench, frame: Frame) {
  const { tipRadius, depth, stock } = frame;
  const throughStock = stock < tipRadius - depth;
  const exit = Math.acos(depth / tipRadius);
  const entry = Math.acos(Math.min(1, (depth + stock) / tipRadius));
  return {
    'blade.entryAngle': throughStock
      ? radiansToDegrees(Math.atan2(halfChord(tipRadius, depth + stock), depth + stock))
      : null,
    'blade.teethInCut': (bench.blade.teeth * (exit - entry)) / (2 * Math.PI),
  };
}

/**
 * Every measure of a bench that passed the schema, in the units of the catalogue.
 * Pure, and `null` where the bench gives a measure no meaning.
 */
export function measureBench(bench: Bench): Measures {
  const { blade, arbor, fence, table, job, people, place } = bench;
  const frame = bladeFrame(bench);
  const { tipRadius, rootRadius, depth, halfAtTable } = frame;
  const projection = tipRadius - depth;
  const stick = people.pushStick;
  return {
    'blade.projection': projection,
    'blade.aboveStock': projection - frame.stock,
    'blade.sizeRatio': blade.diameter / arbor.largestBlade,
    'blade.rimSpeed': (Math.PI * blade.diameter * arbor.speed) / 60_000,
    'blade.speedUse': arbor.speed / blade.maxSpeed,
    ...measureCut(bench, frame),
    ...(bench.knife === null ? KNIFE_OFF : measureKnife(bench.knife, bench, frame)),
    ...(bench.guard === null ? GUARD_OFF : measureGuard(bench.guard, frame)),
    underGuard: bench.underGuard,
    'fence.overrun': fence.end + halfAtTable,
    // a blade so low that only its tooth points show has no gullet above the table
    'fence.pastGullets': rootRadius > depth ? fence.end + halfChord(rootRadius, depth) : null,
    'fence.toe': fence.toe,
    'insert.gapMax': Math.max(bench.insert.gaps[0], bench.insert.gaps[1]),
    'insert.step': bench.insert.step,
    'table.outfeedFromSpindle': table.outfeed,
    'table.outfeedFromTeeth': table.outfeed - halfAtTable,
    'stock.tipsBy': halfAtTable + job.stock.length / 2 - table.outfeed,
    'stick.length': stick === null ? null : stick.length,
    'stick.lastFed': stick === null ? null : stick.usedForLast,
    'arbor.runDown': arbor.runDown,
    'arbor.runUp': arbor.runUp,
    'place.light': place.light,
    'place.uniformity': place.uniformity,
  };
}
