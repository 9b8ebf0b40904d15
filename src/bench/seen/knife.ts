import { measureBench } from '../measures/index.ts';
import { MEASURING_POINTS } from '../measuring-points.ts';
import type { Bench } from '../schema/index.ts';
import { byEye, type Observation, see, sideOf } from './observation.ts';

/** mm: a gap behind the teeth is judged to the nearest five; sideways, sighted along the plate, to one */
const COARSE = 5;
const SIGHTED = 1;

const gapOf = (key: string, gap: number): Observation =>
  gap <= 0 ? see('knife', `${key}-touching`) : see('knife', key, { gap: byEye(gap, COARSE) });

export function seeKnife(bench: Bench): Observation[] {
  const { knife } = bench;
  if (knife === null) return [see('knife', 'knife.off')];
  const measures = measureBench(bench);
  const drop = Number(measures['knife.tipDrop']);
  const atTable = Number(measures['knife.gapAtTable']);
  const atTip = MEASURING_POINTS['knife-gap-at-tip'].take(bench) ?? 0;
  const touchesBetween = Number(measures['knife.gapMin']) <= 0 && atTable > 0 && atTip > 0;
  return [
    see('knife', `knife.on-${knife.carriedBy}`),
    gapOf('knife.gap-at-table', atTable),
    gapOf('knife.gap-at-tip', atTip),
    ...(touchesBetween ? [see('knife', 'knife.touching-between')] : []),
    see('knife', `knife.tip-${sideOf(drop, COARSE, ['below', 'above'])}`, {
      drop: byEye(drop, COARSE),
    }),
    see('knife', `knife.side-${sideOf(knife.lateral, SIGHTED, ['right', 'left'])}`, {
      offset: byEye(knife.lateral, SIGHTED),
    }),
    see('knife', knife.locked ? 'knife.clamp-tight' : 'knife.clamp-loose'),
  ];
}
