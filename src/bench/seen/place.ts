import type { Bench } from '../schema/index.ts';
import { byEye, type Observation, see } from './observation.ts';

/** mm: how far a control stands from the operator's hand */
const REACH = 50;

export function seeControls({ controls }: Bench): Observation[] {
  const state = controls.isolated ? 'locked' : 'live';
  return [
    see('controls', `controls.isolator-${controls.isolator}-${state}`),
    see('controls', 'controls.stop', { reach: byEye(controls.stopReach, REACH) }),
  ];
}

export function seeMachinePlate({ arbor }: Bench): Observation[] {
  return [see('arbor', 'arbor.plate', { largest: arbor.largestBlade, speed: arbor.speed })];
}

/**
 * Light as the eye takes it, in steps far coarser than any published figure; a lux meter is needed
 * to hold it against one. The steps are common practice with no published source.
 */
function lightOf(lux: number): 'dark' | 'dim' | 'fair' | 'bright' {
  if (lux < 100) return 'dark';
  if (lux < 300) return 'dim';
  return lux < 1000 ? 'fair' : 'bright';
}

function shadowsOf(uniformity: number): 'deep' | 'soft' | 'none' {
  if (uniformity < 0.4) return 'deep';
  return uniformity < 0.8 ? 'soft' : 'none';
}

export function seePlace({ place }: Bench): Observation[] {
  return [
    see('place', `place.floor-${place.floor}`),
    see('place', place.litter ? 'place.littered' : 'place.swept'),
    see('place', `place.light-${lightOf(place.light)}`),
    see('place', `place.shadows-${shadowsOf(place.uniformity)}`),
    see('place', place.walkwaysMarked ? 'place.walkways' : 'place.no-walkways'),
    see('place', place.wasteBin ? 'place.bin' : 'place.no-bin'),
    see('place', place.toolsOnTable ? 'place.tools-on-table' : 'place.tools-away'),
    see('place', `place.${place.foundation}`),
  ];
}
