import { distance, pointAt } from '../geometry/index.ts';
import type { ClampedPart } from './actions.ts';
import type { InstrumentId } from './instruments.ts';
import { knifeEdge } from './knife-edge.ts';
import { type MeasureId, measureBench, type Part } from './measures/index.ts';
import { playOf } from './play.ts';
import type { Bench } from './schema/index.ts';

/** A place on the bench where an instrument can be laid, and what it then measures. */
export type MeasuringPoint = {
  readonly part: Part;
  readonly title: string;
  readonly instruments: readonly InstrumentId[];
  /** the measure this reading can be held against, when it is one */
  readonly measure: MeasureId | null;
  /** true length, mm; null when the part is off or out of reach */
  readonly take: (bench: Bench) => number | null;
};

/** The measure itself, where the instrument takes it directly. */
function direct(
  part: Part,
  title: string,
  instruments: InstrumentId[],
  measure: MeasureId,
): MeasuringPoint {
  return {
    part,
    title,
    instruments,
    measure,
    take: (bench) => {
      const value = measureBench(bench)[measure];
      return typeof value === 'number' ? value : null;
    },
  };
}

function of(
  part: Part,
  title: string,
  instruments: InstrumentId[],
  take: (bench: Bench) => number | null,
): MeasuringPoint {
  return { part, title, instruments, measure: null, take };
}

/** What a part gives when it is pushed, over the dial gauge. */
function play(part: ClampedPart, title: string): MeasuringPoint {
  const measure = part === 'fence' ? null : (`${part}.play` as const);
  return { part, title, instruments: ['dial'], measure, take: (bench) => playOf(bench, part) };
}

/** Gap at the tip of the knife, measured radially, mm. */
function gapAtTip(bench: Bench): number | null {
  if (bench.knife === null) return null;
  const edge = knifeEdge(bench.knife, bench.arbor.depth);
  const tip = pointAt(edge.centre, edge.radius, edge.to);
  return distance(tip, { x: 0, y: -bench.arbor.depth }) - bench.blade.diameter / 2;
}

export const MEASURING_POINTS = {
  'knife-gap-at-table': direct(
    'knife',
    'Teeth to riving knife, at the table',
    ['feeler', 'rule'],
    'knife.gapAtTable',
  ),
  'knife-gap-at-tip': of(
    'knife',
    'Teeth to riving knife, at its tip',
    ['feeler', 'rule'],
    gapAtTip,
  ),
  'knife-gap-greatest': direct(
    'knife',
    'Teeth to riving knife, where the gap is greatest',
    ['feeler', 'rule'],
    'knife.gapMax',
  ),
  'knife-tip-drop': direct(
    'knife',
    'Top of the blade down to the knife tip',
    ['rule', 'square'],
    'knife.tipDrop',
  ),
  'knife-thickness': of(
    'knife',
    'Thickness of the riving knife',
    ['calliper'],
    (b) => b.knife?.thickness ?? null,
  ),
  'knife-in-line': of(
    'knife',
    'Side of the plate to the side of the riving knife, left',
    ['straightedge', 'dial'],
    ({ knife, blade }) =>
      knife === null ? null : knife.lateral + (blade.plate - knife.thickness) / 2,
  ),
  'knife-play': play('knife', 'Riving knife, pushed from side to side'),
  'blade-plate': of('blade', 'Thickness of the blade plate', ['calliper'], (b) => b.blade.plate),
  'blade-kerf': of('blade', 'Width over the teeth (kerf)', ['calliper'], (b) => b.blade.kerf),
  'blade-height': direct(
    'blade',
    'Table up to the top of the blade',
    ['rule', 'square'],
    'blade.projection',
  ),
  'guard-to-stock': direct(
    'guard',
    'Crown guard to the top of the stock',
    ['feeler', 'rule'],
    'guard.clearance',
  ),
  'guard-front': direct(
    'guard',
    'Front teeth to the front end of the crown guard',
    ['rule'],
    'guard.leadFront',
  ),
  'guard-rear': direct(
    'guard',
    'Rear teeth to the rear end of the crown guard',
    ['rule'],
    'guard.leadRear',
  ),
  'guard-play': play('guard', 'Crown guard, pushed from side to side'),
  'fence-end': direct(
    'fence',
    'Front teeth to the far end of the fence',
    ['rule'],
    'fence.overrun',
  ),
  'fence-face': of('fence', 'Kerf to the fence face', ['rule', 'calliper'], (b) => b.fence.face),
  'fence-toe': direct(
    'fence',
    'Fence: rear face distance less front',
    ['calliper', 'dial'],
    'fence.toe',
  ),
  'fence-play': play('fence', 'Fence, pushed from side to side'),
  'insert-left': of(
    'insert',
    'Kerf to the insert, left side',
    ['feeler', 'rule'],
    (b) => b.insert.gaps[0],
  ),
  'insert-right': of(
    'insert',
    'Kerf to the insert, right side',
    ['feeler', 'rule'],
    (b) => b.insert.gaps[1],
  ),
  'insert-step': direct(
    'insert',
    'Table to the insert, above or below',
    ['straightedge', 'dial'],
    'insert.step',
  ),
  'stock-thickness': of(
    'stock',
    'Thickness of the stock',
    ['rule', 'calliper'],
    (b) => b.job.stock.thickness,
  ),
  'stick-length': direct('push-stick', 'Length of the push stick', ['rule'], 'stick.length'),
} as const satisfies Record<string, MeasuringPoint>;

export type MeasuringPointId = keyof typeof MEASURING_POINTS;
export const MEASURING_POINT_IDS = Object.keys(MEASURING_POINTS) as readonly MeasuringPointId[];
