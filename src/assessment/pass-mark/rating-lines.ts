import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import type { Blueprint, Slot, SlotKind } from '../blueprint/index.ts';

/** One part of a test that trainers rate: how many of those just good enough would get it right. */
export type RatingLine = {
  readonly id: string;
  readonly slot: SlotKind;
  /** how many of it a test has; 1 where it is one piece of work */
  readonly count: number;
  /** points of 100 when everybody gets it right */
  readonly gain: number;
  /** points of 100 taken off when nobody does: look-alikes taken for faults */
  readonly loss: number;
};

const SEVERITIES = ['danger', 'warning', 'caution'] as const;

function linesOf(slot: Slot, points: number): RatingLine[] {
  const { kind } = slot;
  if (kind !== 'find') {
    const count = kind === 'set' ? slot.settings.length : kind === 'plan' ? 1 : slot.count;
    return [{ id: kind, slot: kind, count, gain: points, loss: 0 }];
  }
  const worth = (severity: (typeof SEVERITIES)[number]) =>
    slot.faults[severity] * SEVERITY_WEIGHT[severity];
  const all = SEVERITIES.reduce((sum, severity) => sum + worth(severity), 0);
  const found = SEVERITIES.filter((severity) => slot.faults[severity] > 0).map((severity) => ({
    id: `find-${severity}`,
    slot: kind,
    count: slot.faults[severity],
    gain: (points * worth(severity)) / all,
    loss: 0,
  }));
  if (slot.lookAlikes === 0) return found;
  // what a false alarm costs goes by the fault it was taken for; a warning stands between the others
  const loss = (points * slot.lookAlikes * SEVERITY_WEIGHT.warning) / all;
  return [...found, { id: 'find-in-order', slot: kind, count: slot.lookAlikes, gain: 0, loss }];
}

/** What there is to rate in a test, in its order. The gains add up to 100 points. */
export function ratingLines({ tasks }: Pick<Blueprint, 'tasks'>): readonly RatingLine[] {
  const all = tasks.reduce((sum, { weight }) => sum + weight, 0);
  return tasks.flatMap((slot) => linesOf(slot, (100 * slot.weight) / all));
}
