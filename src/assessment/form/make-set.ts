import {
  type Bench,
  bladeFrame,
  type MeasureId,
  measureBench,
  readBench,
} from '../../bench/index.ts';
import { halfChord } from '../../geometry/index.ts';
import { chooseBlade } from '../../grading/index.ts';
import { findFaults } from '../../limits/index.ts';
import type { SlotOf } from '../blueprint/index.ts';
import { makeSoundBench } from '../plant/index.ts';
import type { Random } from '../random.ts';
import { scoreSetting } from '../score/setting-score.ts';
import type { ExamRules } from './exam-rules.ts';
import { fitBlade, fitInsert, fitKnife, gapsOf } from './fit.ts';
import type { InsertChoice, SetTask } from './form.ts';

/** mm of slot of the inserts in the rack. Common practice, no source. */
const INSERTS: readonly InsertChoice[] = [
  { id: 'insert-4', slot: 4 },
  { id: 'insert-9', slot: 9 },
  { id: 'insert-20', slot: 20 },
];

/** mm of stock that is sawn at a bench like these. */
const THICKNESSES = [22, 27, 32, 38, 44, 50] as const;

/** The same bench with another job on it. */
function withJob(bench: Bench, random: Random): Bench {
  const width = random.step(60, 180, 10);
  const thickness = random.pick(THICKNESSES);
  return {
    ...bench,
    job: { ...bench.job, widthOfCut: width, stock: { ...bench.job.stock, thickness } },
  };
}

/** mm behind the teeth, and below the top of the blade, tried in turn until every limit is well met. */
const GAPS = [3.5, 3, 4, 4.5, 5, 5.5, 6, 2.5];
const DROPS = [1, 0.5, 2, 5];
const PLACES = DROPS.flatMap((drop) => GAPS.map((gap) => ({ gap, drop })));
const USUAL_CLEARANCE = 4;

/**
 * The bench set as well as it can be with this blade and knife; null where the limits ask for what
 * they cannot give. Shows that the task can be done before it is given.
 */
function setWell(mounted: Bench, measures: readonly MeasureId[], rules: ExamRules): Bench | null {
  const { knife, guard } = mounted;
  if (knife === null || guard === null) return null;
  const frame = bladeFrame(mounted);
  const length = guard.rear - guard.front;
  const gullets = frame.rootRadius > frame.depth ? halfChord(frame.rootRadius, frame.depth) : 0;
  for (const { gap, drop } of PLACES) {
    const behind = frame.tipRadius + gap - knife.edgeRadius;
    const read = readBench({
      ...mounted,
      knife: {
        ...knife,
        along: Math.max(0, Math.round(behind * 2) / 2),
        up: Math.round((frame.tipRadius - drop - knife.reach) * 2) / 2,
        locked: true,
      },
      guard: {
        ...guard,
        height: mounted.job.stock.thickness + USUAL_CLEARANCE,
        front: -Math.round(length / 2),
        rear: length - Math.round(length / 2),
        fingers: 'resting',
      },
      fence: {
        ...mounted.fence,
        face: mounted.job.widthOfCut,
        end: -Math.ceil(gullets) - 5,
        toe: 0,
      },
    });
    if (read.ok && isWell(read.bench, measures, rules)) return read.bench;
  }
  return null;
}

const isWell = (bench: Bench, measures: readonly MeasureId[], { sets, catalogue }: ExamRules) =>
  measures.every((measure) => (scoreSetting(bench, measure, sets).score ?? 100) === 100) &&
  findFaults(bench, measureBench(bench), sets, catalogue).length === 0;

/** The bench as the last job left it: another blade, everything set for something else, all tight. */
function leaveFromLastJob(well: Bench, random: Random, { rack }: ExamRules) {
  const last = random.pick(rack.blades.filter(({ diameter }) => diameter >= 303));
  const bladed = fitBlade(well, last);
  const insert = random.pick(INSERTS.filter((one) => gapsOf(one, last.kerf) !== null));
  const inserted = bladed && fitInsert(bladed, insert);
  const knife = random.pick(rack.knives);
  const left = inserted && fitKnife(inserted, knife);
  if (left?.knife === undefined || left.knife === null || left.guard === null) return null;
  const shift = random.step(20, 60, 5) * random.pick([-1, 1]);
  const read = readBench({
    ...left,
    controls: { ...left.controls, isolated: false },
    knife: { ...left.knife, locked: true },
    guard: {
      ...left.guard,
      height: left.guard.height + random.step(30, 60, 1),
      front: left.guard.front + shift,
      rear: left.guard.rear + shift,
      fingers: random.pick(['raised', 'resting'] as const),
    },
    fence: {
      ...left.fence,
      face: left.fence.face + random.step(20, 80, 5),
      end: left.fence.end + random.step(60, 200, 5),
    },
  });
  if (!read.ok) return null;
  return { bench: read.bench, mounted: { blade: last.id, knife: knife.id, insert: insert.id } };
}

const TRIES = 60;

/**
 * A job to set a bench for, with a rack to choose from. That it can be done to full marks is tried.
 * @throws RangeError when the blueprint's rack and limits leave no such job
 */
export function makeSet(slot: SlotOf<'set'>, rules: ExamRules, random: Random): SetTask {
  const { blueprint, benches, sets, catalogue, rack, estimate } = rules;
  for (let i = 0; i < TRIES; i++) {
    const sound = makeSoundBench(blueprint, benches, sets, catalogue, random);
    const job = withJob(sound, random);
    const [best] = chooseBlade({ bench: job, rack, sets });
    if (best?.bench === null || best?.fits !== true || best.bench === undefined) continue;
    const well = setWell(best.bench, slot.settings, rules);
    const left = well && leaveFromLastJob(well, random, rules);
    if (well === null || left === null) continue;
    return {
      id: 'set',
      kind: 'set',
      weight: slot.weight,
      estimate: estimate.set,
      bench: left.bench,
      mounted: left.mounted,
      blades: rack.blades,
      knives: rack.knives,
      inserts: INSERTS,
      settings: slot.settings.filter((measure) => scoreSetting(well, measure, sets).score !== null),
    };
  }
  throw new RangeError(
    `The blueprint ${blueprint.id} has no job that its rack and its limits let be set.`,
  );
}
