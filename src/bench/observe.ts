import type { Bench } from './schema/index.ts';
import { seeBlade } from './seen/blade.ts';
import { seeFence, seeInsert, seeTable } from './seen/fence-and-table.ts';
import { seeGuard, seeUnderTable } from './seen/guard.ts';
import { seeJob, seePeople } from './seen/job-and-people.ts';
import { seeKnife } from './seen/knife.ts';
import type { Observation } from './seen/observation.ts';
import { seeControls, seeMachinePlate, seePlace } from './seen/place.ts';

export type { ByEye, Observation, Seen } from './seen/observation.ts';

/**
 * What a person sees who walks round this bench and looks, part by part, in the order of the walk.
 * Lengths are by eye, rounded as coarsely as a practised eye judges them, so that a limit is met or
 * missed only by measuring. What needs a hand or an instrument (thickness, kerf, play, toe, run-down,
 * moisture) is not told, and nothing is called right or wrong. Pure.
 * @param turned teeth the blade has been turned by hand, as it runs; 0 is the first tooth straight up
 */
export function observe(bench: Bench, turned = 0): readonly Observation[] {
  return [
    ...seeControls(bench),
    ...seeMachinePlate(bench),
    ...seeBlade(bench, turned),
    ...seeKnife(bench),
    ...seeGuard(bench),
    ...seeUnderTable(bench),
    ...seeFence(bench),
    ...seeInsert(bench),
    ...seeTable(bench),
    ...seeJob(bench),
    ...seePeople(bench),
    ...seePlace(bench),
  ];
}
