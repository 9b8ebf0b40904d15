import { measureBench } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { byEye, type Observation, see, sideOf } from './observation.ts';

/** mm: by eye along the fence; beside the kerf; an edge felt for with the eye; the table's size */
const COARSE = 5;
const NARROW = 2;
const EDGE = 1;
const WIDE = 50;

export function seeFence(bench: Bench): Observation[] {
  const { fence } = bench;
  const measures = measureBench(bench);
  const overrun = Number(measures['fence.overrun']);
  const pastGullets = measures['fence.pastGullets'];
  return [
    see('fence', 'fence.face', { face: byEye(fence.face, COARSE) }),
    see('fence', `fence.end-${sideOf(overrun, COARSE, ['past', 'short'])}`, {
      by: byEye(overrun, COARSE),
    }),
    ...(typeof pastGullets === 'number'
      ? [
          see('fence', `fence.gullets-${sideOf(pastGullets, COARSE, ['past', 'short'])}`, {
            by: byEye(pastGullets, COARSE),
          }),
        ]
      : []),
    see('fence', fence.locked ? 'fence.clamp-tight' : 'fence.clamp-loose'),
  ];
}

export function seeInsert(bench: Bench): Observation[] {
  const { gaps, step, worn } = bench.insert;
  return [
    see('insert', 'insert.gaps', { left: byEye(gaps[0], NARROW), right: byEye(gaps[1], NARROW) }),
    see('insert', `insert.step-${sideOf(step, EDGE, ['proud', 'low'])}`, {
      step: byEye(step, EDGE),
    }),
    see('insert', worn ? 'insert.worn' : 'insert.straight'),
  ];
}

export function seeTable(bench: Bench): Observation[] {
  const { infeed, outfeed, width, level, sound } = bench.table;
  return [
    see('table', 'table.size', {
      infeed: byEye(infeed, WIDE),
      outfeed: byEye(outfeed, WIDE),
      width: byEye(width, WIDE),
    }),
    see('table', level ? 'table.level' : 'table.leans'),
    see('table', sound ? 'table.sound' : 'table.damaged'),
  ];
}
