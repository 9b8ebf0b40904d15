import {
  type Bench,
  bladeFrame,
  type MeasureId,
  measureBench,
  readBench,
} from '../../bench/index.ts';
import { halfChord } from '../../geometry/index.ts';
import { chooseBlade, type Rack } from '../../grading/index.ts';
import { findFaults } from '../../limits/index.ts';
import type { SlotOf } from '../blueprint/index.ts';
import { makeSoundBench } from '../plant/index.ts';
import type { Random } from '../random.ts';
import { scoreSettings } from '../score/setting-score.ts';
import type { ExamRules } from './exam-rules.ts';
import { fitBlade, fitInsert, fitKnife, gapsOf } from './fit.ts';
import type { SetTask } from './form.ts';
import { INSERTS } from './inserts.ts';

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

/** mm: how far back and how far below the top a knife may have to stand, tried in turn. */
const ALONGS = [2, 1, 3, 0, 4, -1, 5, -2, -3, -4, 6, -6, 8];
const DROPS = [1, 0.5, 2, 5];
const PLACES = DROPS.flatMap((drop) => ALONGS.map((along) => ({ along, drop })));
const USUAL_CLEARANCE = 4;
/** mm past the front teeth that the fence may end, where the gullets hardly show. */
const USUAL_OVERRUN = 13;

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
  for (const { along, drop } of PLACES) {
    const read = readBench({
      ...mounted,
      knife: {
        ...knife,
        along,
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
        end: -Math.ceil(Math.max(gullets, frame.halfAtTable - USUAL_OVERRUN)) - 5,
        toe: 0,
      },
    });
    if (read.ok && isWell(read.bench, measures, rules)) return read.bench;
  }
  return null;
}

const isWell = (bench: Bench, measures: readonly MeasureId[], { sets, catalogue }: ExamRules) =>
  scoreSettings(bench, measures, sets).every(({ score }) => (score ?? 100) === 100) &&
  findFaults(bench, measureBench(bench), sets, catalogue).length === 0;

/** The bench as the last job left it: another blade, everything set for something else, all tight. */
function leaveFromLastJob(well: Bench, rack: Rack, random: Random) {
  const last = random.pick(rack.blades);
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
/** Blades left on the rack for a form: the best one is not the same every time. */
const HUNG = 5;

/**
 * A job to set a bench for, with a rack to choose from. That it can be done to full marks is tried.
 * @throws RangeError when the blueprint's rack and limits leave no such job
 */
export function makeSet(slot: SlotOf<'set'>, rules: ExamRules, random: Random): SetTask {
  const { blueprint, benches, sets, catalogue, rack, estimate } = rules;
  // most settings are about cutting along the grain: where that is allowed, every form asks the same
  const along = blueprint.cuts.filter((cut) => cut !== 'crosscut');
  const cuts = along.length > 0 ? along : blueprint.cuts;
  for (let i = 0; i < TRIES; i++) {
    const sound = makeSoundBench({ ...blueprint, cuts }, benches, sets, catalogue, random);
    const job = withJob(sound, random);
    const hung = { ...rack, blades: random.sample(rack.blades, HUNG) };
    const [best] = chooseBlade({ bench: job, rack: hung, sets });
    if (best?.bench === null || best?.fits !== true || best.bench === undefined) continue;
    const well = setWell(best.bench, slot.settings, rules);
    const left = well && leaveFromLastJob(well, hung, random);
    if (well === null || left === null) continue;
    return {
      id: 'set',
      kind: 'set',
      weight: slot.weight,
      estimate: estimate.set,
      bench: left.bench,
      mounted: left.mounted,
      blades: hung.blades,
      knives: hung.knives,
      inserts: INSERTS,
      settings: scoreSettings(well, slot.settings, sets).flatMap(({ measure, score }) =>
        score === null ? [] : [measure],
      ),
    };
  }
  throw new RangeError(
    `The blueprint ${blueprint.id} has no job that its rack and its limits let be set.`,
  );
}
