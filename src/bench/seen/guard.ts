import { bladeFrame, measureBench } from '../measures/index.ts';
import type { Bench, Guard } from '../schema/index.ts';
import { byEye, type Observation, see, sideOf } from './observation.ts';

/** mm: heights and overlaps of the guard are judged to the nearest five */
const COARSE = 5;

const rides = (guard: Guard): boolean =>
  guard.kind === 'self-closing' || guard.kind === 'counterweighted';

export function seeGuard(bench: Bench): Observation[] {
  const { guard } = bench;
  if (guard === null) return [see('guard', 'guard.off')];
  const measures = measureBench(bench);
  return [
    see('guard', `guard.kind-${guard.kind}`),
    seeHeight(guard, Number(measures['guard.clearance'])),
    seeEnd('front', Number(measures['guard.leadFront'])),
    seeEnd('rear', Number(measures['guard.leadRear'])),
    seeSides(bench, guard),
    see('guard', `guard.fingers-${guard.fingers}`),
    see('guard', guard.locked ? 'guard.clamp-tight' : 'guard.clamp-loose'),
  ];
}

function seeHeight(guard: Guard, clearance: number): Observation {
  if (rides(guard) && !guard.stuck) return see('guard', 'guard.rides');
  const side = sideOf(clearance, COARSE, ['above', 'below']);
  const key = rides(guard) ? 'guard.hangs-open' : `guard.height-${side}`;
  return see('guard', key, { gap: byEye(clearance, COARSE) });
}

const seeEnd = (end: 'front' | 'rear', lead: number): Observation =>
  see('guard', `guard.${end}-${sideOf(lead, COARSE, ['past', 'short'])}`, {
    lead: byEye(lead, COARSE),
  });

/** How its sides hang against the gullet roots of the top teeth, from the fence side. */
function seeSides(bench: Bench, guard: Guard): Observation {
  const { rootRadius, depth } = bladeFrame(bench);
  const below = rootRadius - (depth + guard.height - guard.sideDepth);
  return see('guard', `guard.sides-${sideOf(below, COARSE, ['below', 'above'])}`, {
    by: byEye(below, COARSE),
  });
}

export function seeUnderTable(bench: Bench): Observation[] {
  return [
    see('under-guard', `under-guard.${bench.underGuard}`),
    see('drive', `drive.${bench.driveGuard}`),
  ];
}
