import type { Bench } from './schema/index.ts';
import { seeBlade } from './seen/blade.ts';
import { seeByWord } from './seen/by-word.ts';
import { seeFence, seeInsert, seeTable } from './seen/fence-and-table.ts';
import { seeGuard, seeUnderTable } from './seen/guard.ts';
import { seeJob, seePeople } from './seen/job-and-people.ts';
import { seeKnife } from './seen/knife.ts';
import type { Observation } from './seen/observation.ts';
import { seeControls, seeMachinePlate, seePlace } from './seen/place.ts';
import { seeTried } from './seen/tried.ts';
import { WALK } from './walk.ts';

export type { ByEye, Observation, Seen } from './seen/observation.ts';

/**
 * What a person sees who walks round this bench and looks, part by part, in the order of the walk.
 * Lengths are by eye, rounded as coarsely as a practised eye judges them, so that a limit is met or
 * missed only by measuring. What a tool of the tray or a hand on a part tells (thickness, kerf, play,
 * toe) is left to them; what a watch, a meter or a trial tells is told to the figure they show, for
 * there is nothing to lay on. Nothing is called right or wrong. Pure.
 * @param turned teeth the blade has been turned by hand, as it runs; 0 is the first tooth straight up
 */
export function observe(bench: Bench, turned = 0): readonly Observation[] {
  const seen = [
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
    ...seeByWord(bench),
    ...seeTried(bench),
  ];
  return seen.toSorted((a, b) => WALK.indexOf(a.part) - WALK.indexOf(b.part));
}
