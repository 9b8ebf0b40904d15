import { type Bench, measureBench } from '../../src/bench/index.ts';
import { isDecided, judge, type LimitSet } from '../../src/limits/index.ts';

/**
 * What a person who knows the trade sees on a bench, fault by fault, written without looking at the
 * catalogue's own conditions: the bench as it is shown, readings, and the limits as published.
 */
type Look = (bench: Bench, off: Off) => boolean;
/** Whether a published limit on one of these measures is missed at that end. */
type Off = (end: 'min' | 'max' | 'word', ...measures: string[]) => boolean;

const ripping = ({ job }: Bench) => ['rip', 'bevel', 'deep', 'rebate', 'groove'].includes(job.cut);
const riding = ({ guard }: Bench) =>
  guard !== null && (guard.kind === 'self-closing' || guard.kind === 'counterweighted');
const reading = (bench: Bench, measure: keyof ReturnType<typeof measureBench>) =>
  Number(measureBench(bench)[measure]);
const inLine = (bench: Bench, at: { x: number; z: number } | undefined) =>
  at !== undefined && ripping(bench) && at.x < 0 && at.z >= 0 && at.z <= bench.fence.face;

export const EYES: Readonly<Record<string, Look>> = {
  'cracked-gullet': (b) => b.blade.condition.cracks.some((c) => c.at === 'gullet'),
  'cracked-plate': (b) => b.blade.condition.cracks.some((c) => c.at !== 'gullet'),
  'missing-tooth': (b) => b.blade.condition.missingTeeth.length > 0,
  'broken-tooth': (b) => (b.blade.condition.broken ?? []).length > 0,
  'square-gullets': (b) => b.blade.condition.gullets === 'square',
  'dull-blade': (b) => b.blade.condition.sharpness === 'dull',
  'uneven-teeth': (b) =>
    b.blade.condition.sharpness === 'uneven' || b.blade.condition.set === 'uneven',
  'burnt-blade': (b) => b.blade.condition.burnt,
  'resin-build-up': (b) => b.blade.condition.resin === true,
  'blade-unmarked': (b) => !b.blade.condition.marked,
  'blade-backwards': (b) => b.blade.mounted === 'backwards',
  'tool-not-for-hand-feed': (b) => b.blade.handFeedMark === false,
  'blade-too-small': (_b, off) => off('min', 'blade.sizeRatio'),
  'blade-too-large': (b) => b.blade.diameter > b.arbor.largestBlade,
  overspeed: (b) => b.arbor.speed > b.blade.maxSpeed,
  'blade-too-low': (b) => ripping(b) && reading(b, 'blade.aboveStock') <= 0,
  'slow-run-down': (_b, off) => off('max', 'arbor.runDown'),
  vibration: (b) => b.arbor.vibration === 'felt',
  'flanges-wrong': (b) => b.arbor.flanges === 'unlike' || b.arbor.flanges === 'dirty',
  'nut-loose': (b) => b.arbor.nut === 'loose',
  'packing-worn': (b) => b.arbor.packing === 'worn',
  'knife-missing': (b, off) => b.knife === null && (off('word', 'knife') || b.job.cut === 'rip'),
  'knife-too-far': (_b, off) => off('max', 'knife.gapAtTable', 'knife.gapMax'),
  'knife-too-near': (b, off) => reading(b, 'knife.gapMin') > 0 && off('min', 'knife.gapMin'),
  'knife-fouls-blade': (b) => b.knife !== null && reading(b, 'knife.gapMin') <= 0,
  'knife-too-thin': (b, off) =>
    b.knife !== null &&
    (b.knife.thickness < b.blade.plate - 1e-6 || off('min', 'knife.overPlate', 'knife.plateRatio')),
  'knife-too-thick': (b, off) =>
    b.knife !== null && (b.knife.thickness > b.blade.kerf + 1e-6 || off('min', 'knife.underKerf')),
  'knife-too-low': (_b, off) => off('max', 'knife.tipDrop') || off('min', 'knife.tipHeight'),
  'knife-above-blade': (_b, off) => off('min', 'knife.tipDrop'),
  'knife-out-of-line': (b) =>
    b.knife !== null && b.knife.lateral !== 0 && reading(b, 'knife.sideClear') < -1e-6,
  'knife-covers-too-little': (_b, off) => off('min', 'knife.arcShare'),
  'knife-edge-too-flat': (_b, off) => off('max', 'knife.radiusOver'),
  'knife-play': (b) => (b.knife?.play ?? 0) > 0,
  'knife-loose': (b) => b.knife?.locked === false,
  'knife-damaged': (b) => b.knife?.condition === 'bent' || b.knife?.condition === 'worn',
  'guard-missing': (b) => b.guard === null,
  'guard-too-high': (b, off) =>
    b.guard !== null &&
    (measureBench(b)['guard.coversGullets'] === false || off('max', 'guard.clearance')),
  'guard-short-front': (b, off) =>
    b.guard !== null && (reading(b, 'guard.leadFront') < -1e-6 || off('min', 'guard.leadFront')),
  'guard-short-rear': (b, off) =>
    b.guard !== null && (reading(b, 'guard.leadRear') < -1e-6 || off('min', 'guard.leadRear')),
  'guard-stuck': (b) => riding(b) && b.guard?.stuck === true,
  'guard-loose': (b) => b.guard !== null && !riding(b) && !b.guard.locked,
  'guard-play': (b) => (b.guard?.play ?? 0) > 0,
  'guard-damaged': (b) => b.guard?.whole === false,
  'guard-on-knife': (_b, off) => off('word', 'guard.carriedBy'),
  'guard-not-self-acting': (_b, off) => off('word', 'guard.kind'),
  'fingers-raised': (b) => b.guard?.fingers === 'raised',
  'fingers-missing': (b, off) => b.guard?.fingers === 'none' && off('word', 'guard.fingers'),
  'no-under-guard': (b) => b.underGuard === 'none',
  'under-guard-open': (b, off) => b.underGuard === 'side-plates' && off('word', 'underGuard'),
  'under-plates-wrong': (_b, off) =>
    off('max', 'underPlates.apart') || off('min', 'underPlates.beyond'),
  'under-packed': (b) => b.underPacked === true,
  'fence-past-gullets': (_b, off) => off('max', 'fence.overrun', 'fence.pastGullets'),
  'fence-closing': (b, off) => (ripping(b) && b.fence.toe < -1e-6) || off('min', 'fence.toe'),
  'fence-loose': (b) => ripping(b) && !b.fence.locked,
  'fence-play': (b) => ripping(b) && b.fence.locked && b.fence.play > 0,
  'fence-not-straight': (b) => b.fence.straight === false,
  'fence-as-stop': (b) => b.job.cut === 'crosscut' && b.job.stop === 'fence',
  'wide-insert': (b, off) =>
    b.insert.worn || Math.min(...b.insert.gaps) > 5 + 1e-6 || off('max', 'insert.gapMax'),
  'insert-loose': (b) => b.insert.firm === false,
  'insert-proud': (b) => b.insert.step > 0.5 + 1e-6,
  'insert-low': (b) => b.insert.step < -0.5 - 1e-6,
  'drive-uncovered': (b) => b.driveGuard === 'none',
  'belt-slack': (b) => b.driveBelt === 'slack' || b.driveBelt === 'worn',
  'no-isolator': (b) => b.controls.isolator === 'none',
  'no-lockable-isolator': (b) => b.controls.isolator === 'plain',
  'isolator-unmarked': (b) => b.controls.isolatorMarked === false,
  'isolator-blocked': (b) => b.controls.isolatorBlocked === true,
  'key-left-in-lock': (b) => b.controls.isolated && b.controls.lockKey === 'in-lock',
  'starts-by-itself': (b) => !b.controls.underVoltage,
  'stop-over-blade': (b) => b.controls.stopOverBlade === true,
  'stop-dead': (b) => b.controls.stopWorks === false,
  'start-open': (b) => b.controls.startShrouded === false,
  'extraction-missing': (b) => b.extraction?.kind === 'none',
  'extraction-off': (b) =>
    b.extraction !== undefined && b.extraction.kind !== 'none' && !b.extraction.running,
  'extraction-hose': (b) => b.extraction?.hose === 'loose' || b.extraction?.hose === 'split',
  'extraction-full': (b) => b.extraction?.bag === 'full',
  'table-short': (_b, off) => off('min', 'table.outfeedFromSpindle', 'table.outfeedFromTeeth'),
  'table-not-level': (b) => !b.table.level,
  'table-unsound': (b) => !b.table.sound,
  'offcuts-on-table': (b) => b.table.offcuts === true,
  'loose-foundation': (b) => b.place.foundation === 'loose',
  litter: (b) => b.place.litter,
  'poor-floor': (b) => b.place.floor !== 'sound',
  'poor-light': (_b, off) => off('min', 'place.light', 'place.uniformity'),
  'dim-surround': (_b, off) => off('min', 'place.lightAround', 'place.uniformityAround'),
  glare: (b) => b.place.glare === true,
  'light-flickers': (b) => b.place.flicker === true,
  'tools-on-table': (b) => b.place.toolsOnTable,
  'no-waste-bin': (b) => !b.place.wasteBin,
  'walkways-unmarked': (b) => !b.place.walkwaysMarked,
  'stock-leaning': (b) => b.place.storage?.stock === 'leaning',
  'blades-loose': (b) => b.place.storage?.blades === 'loose',
  'storage-in-the-way': (b) => b.place.storage?.blocksWay === true,
  'solvents-near': (b) => b.place.storage?.solvents === true,
  'stock-tips': (b) => b.people.takeOff === null && reading(b, 'stock.tipsBy') > 1e-6,
  'stock-metal': (b) => b.job.stock.metal === true,
  'stock-not-flat': (b) => ['bowed', 'cupped', 'twisted'].includes(b.job.stock.shape ?? 'flat'),
  'round-stock-loose': (b) => b.job.stock.shape === 'round' && b.job.cradle !== true,
  'loose-knots': (b) => b.job.stock.looseKnots === true,
  'no-push-stick': (b) => b.people.pushStick === null && b.job.cut !== 'crosscut',
  'push-stick-short': (_b, off) => off('min', 'stick.length'),
  'push-stick-late': (_b, off) => off('min', 'stick.lastFed'),
  'push-stick-no-notch': (b) => b.people.pushStick?.notched === false,
  'hand-too-near': (_b, off) => off('min', 'hand.nearest'),
  'in-line-of-cut': (b) => inLine(b, b.people.operator),
  'bystander-in-line': (b) => inLine(b, b.people.bystander),
  'take-off-too-near': (b) => b.people.takeOff !== null && b.people.takeOff.x < b.table.outfeed,
  'loose-sleeves': (b) => b.people.operator.sleeves === 'loose',
  'no-eye-protection': (b) => b.people.operator.eyes === 'none',
  'no-ear-protection': (b) => b.people.operator.ears === 'none',
  'poor-footwear': (b) => ['sandals', 'trainers'].includes(b.people.operator.footwear),
  gloves: (b) => b.people.operator.gloves === true,
  'loose-hair': (b) => b.people.operator.hair === 'loose',
  jewellery: (b) => b.people.operator.jewellery === true,
};

/** The ids of what is wrong with a bench, to these eyes. */
export function lookOver(bench: Bench, sets: readonly LimitSet[]): string[] {
  const results = sets.flatMap((set) => judge(bench, measureBench(bench), set)).filter(isDecided);
  const off: Off = (end, ...measures) =>
    results.some(({ measure, holds, value, min, max }) => {
      if (!measures.includes(measure) || holds !== false) return false;
      if (end === 'word') return true;
      return end === 'max'
        ? max !== null && Number(value) >= max - 1e-6
        : min !== null && Number(value) <= min + 1e-6;
    });
  return Object.keys(EYES).filter((fault) => EYES[fault]?.(bench, off));
}
