import { atMost, degreesToRadians, halfChord, radiansToDegrees } from '../../geometry/index.ts';
import { knifeEdge } from '../knife-edge.ts';
import type { Bench, Guard, Knife } from '../schema/index.ts';
import type { Measures } from './catalogue.ts';
import { measureExposure } from './exposure.ts';
import { nearestHand } from './hand.ts';
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

/** What is measured on the riving knife, in the units of the catalogue; all null when it is off. */
type KnifeMeasures = {
  readonly gapMax: number | null;
  readonly gapMin: number | null;
  readonly gapAtTable: number | null;
  readonly tipHeight: number | null;
  readonly tipDrop: number | null;
  readonly overPlate: number | null;
  readonly underKerf: number | null;
  readonly plateRatio: number | null;
  readonly sideClear: number | null;
  readonly radiusOver: number | null;
  readonly arcShare: number | null;
  readonly play: number | null;
};

const KNIFE_OFF: KnifeMeasures = {
  gapMax: null,
  gapMin: null,
  gapAtTable: null,
  tipHeight: null,
  tipDrop: null,
  overPlate: null,
  underKerf: null,
  plateRatio: null,
  sideClear: null,
  radiusOver: null,
  arcShare: null,
  play: null,
};

function measureKnife(knife: Knife, { blade, arbor }: Bench, frame: Frame): KnifeMeasures {
  const edge = knifeEdge(knife, frame.depth);
  const axis = { x: 0, y: -frame.depth };
  const gaps = knifeGaps(edge, axis, frame.tipRadius);
  const tipHeight = knife.up + knife.reach - frame.depth;
  const underKerf = blade.kerf - knife.thickness;
  return {
    gapMax: gaps.max,
    gapMin: gaps.min,
    gapAtTable: gaps.atTable,
    tipHeight,
    tipDrop: frame.tipRadius - frame.depth - tipHeight,
    overPlate: knife.thickness - blade.plate,
    underKerf,
    plateRatio: knife.thickness / blade.plate,
    sideClear: underKerf / 2 - Math.abs(knife.lateral) - knife.play,
    radiusOver: knife.edgeRadius - arbor.largestBlade / 2,
    arcShare: knifeArcShare(edge, axis, frame.tipRadius),
    play: knife.play,
  };
}

/** A self-closing or counterweighted guard rides on the work until it sticks; the others stay put. */
const ridesOnWork = (guard: Guard): boolean =>
  (guard.kind === 'self-closing' || guard.kind === 'counterweighted') && !guard.stuck;

/** Degrees below the level at which a front tooth meets the stock; null when no tooth comes through. */
function entryAngle({ tipRadius, depth, stock }: Frame): number | null {
  if (stock >= tipRadius - depth) return null;
  return radiansToDegrees(Math.atan2(halfChord(tipRadius, depth + stock), depth + stock));
}

/** Teeth between the top of the stock, or of the blade where it stays below that, and the table. */
function teethInCut(teeth: number, { tipRadius, depth, stock }: Frame): number {
  const entry = Math.acos(Math.min(1, (depth + stock) / tipRadius));
  return (teeth * (Math.acos(depth / tipRadius) - entry)) / (2 * Math.PI);
}

/** mm, the longest crack of a blade; 0 when it has none. */
function longestCrack({ condition: { cracks } }: Bench['blade']): number {
  let longest = 0;
  for (const { length } of cracks) if (length > longest) longest = length;
  return longest;
}

/**
 * Every measure of a bench that passed the schema, in the units of the catalogue.
 * Pure, and `null` where the bench gives a measure no meaning. One literal with every key, so that
 * all results have one shape and are quick to make and to read.
 */
export function measureBench(bench: Bench): Measures {
  const { blade, arbor, knife, guard, fence, insert, table, job, place } = bench;
  const frame = bladeFrame(bench);
  const { tipRadius, rootRadius, depth, halfAtTable } = frame;
  const projection = tipRadius - depth;
  const edge = knife === null ? KNIFE_OFF : measureKnife(knife, bench, frame);
  const exposed = measureExposure(bench);
  const stick = bench.people.pushStick;
  return {
    'blade.projection': projection,
    'blade.aboveStock': projection - frame.stock,
    'blade.sizeRatio': blade.diameter / arbor.largestBlade,
    'blade.rimSpeed': (Math.PI * blade.diameter * arbor.speed) / 60_000,
    'blade.speedUse': arbor.speed / blade.maxSpeed,
    'blade.entryAngle': entryAngle(frame),
    'blade.teethInCut': teethInCut(blade.teeth, frame),
    'blade.crack': longestCrack(blade),
    'knife.gapMax': edge.gapMax,
    'knife.gapMin': edge.gapMin,
    'knife.gapAtTable': edge.gapAtTable,
    'knife.tipHeight': edge.tipHeight,
    'knife.tipDrop': edge.tipDrop,
    'knife.overPlate': edge.overPlate,
    'knife.underKerf': edge.underKerf,
    'knife.plateRatio': edge.plateRatio,
    'knife.sideClear': edge.sideClear,
    'knife.radiusOver': edge.radiusOver,
    'knife.arcShare': edge.arcShare,
    'knife.play': edge.play,
    'guard.clearance': guard === null ? null : ridesOnWork(guard) ? 0 : guard.height - frame.stock,
    'guard.leadFront': guard === null ? null : -guard.front - halfAtTable,
    'guard.leadRear': guard === null ? null : guard.rear - halfAtTable,
    'guard.coversGullets':
      guard === null ? null : atMost(depth + guard.height - guard.sideDepth, rootRadius),
    'guard.play': guard === null ? null : guard.play,
    underGuard: bench.underGuard,
    'fence.overrun': fence.end + halfAtTable,
    // a blade so low that only its tooth points show has no gullet above the table
    'fence.pastGullets': rootRadius > depth ? fence.end + halfChord(rootRadius, depth) : null,
    'fence.toe': fence.toe,
    'insert.gapMax': Math.max(insert.gaps[0], insert.gaps[1]),
    'insert.step': insert.step,
    'table.outfeedFromSpindle': table.outfeed,
    'table.outfeedFromTeeth': table.outfeed - halfAtTable,
    'stock.tipsBy': halfAtTable + job.stock.length / 2 - table.outfeed,
    'stick.length': stick === null ? null : stick.length,
    'stick.lastFed': stick === null ? null : stick.usedForLast,
    'hand.nearest': nearestHand(bench),
    'arbor.runDown': arbor.runDown,
    'arbor.runUp': arbor.runUp,
    'place.light': place.light,
    'place.uniformity': place.uniformity,
    'noise.exposure': exposed.noise,
    'noise.atEar': exposed.atEar,
    'noise.peak': exposed.peak,
    'noise.dose': exposed.dose,
    'dust.exposure': exposed.dust,
    'dust.respirable': exposed.respirable,
  };
}
