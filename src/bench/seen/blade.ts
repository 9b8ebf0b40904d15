import { measureBench } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { bladeOutline } from '../shape/index.ts';
import { byEye, type Observation, see } from './observation.ts';

/** mm: heights and cracks are judged to the nearest five */
const COARSE = 5;

const POINTS = { sharp: 'blade.sharp', dull: 'blade.dull', uneven: 'blade.uneven' } as const;

/** Whether a point of the blade, about the arbor axis, stands above the table. */
const isAbove = (point: { y: number } | undefined, bench: Bench): boolean =>
  (point?.y ?? 0) > bench.arbor.depth;

export function seeBlade(bench: Bench): Observation[] {
  const { blade, arbor } = bench;
  const { condition } = blade;
  const projection = measureBench(bench)['blade.projection'];
  return [
    condition.marked
      ? see('blade', 'blade.marked', { diameter: blade.diameter, speed: blade.maxSpeed })
      : see('blade', 'blade.unmarked'),
    see('blade', 'blade.height', { height: byEye(Number(projection), COARSE) }),
    arbor.tilt < 0.5
      ? see('blade', 'blade.upright')
      : see('blade', 'blade.leans', { degrees: Math.round(arbor.tilt) }),
    see('blade', 'blade.teeth', { teeth: blade.teeth, hook: hookOf(blade.hookAngle) }),
    ...seeTeeth(bench),
    see('blade', POINTS[condition.sharpness]),
    see('blade', condition.set === 'even' ? 'blade.set-even' : 'blade.set-uneven'),
    see('blade', condition.gullets === 'square' ? 'blade.gullets-square' : 'blade.gullets-round', {
      depth: byEye(blade.gulletDepth, COARSE),
    }),
    ...seePlate(bench),
  ];
}

/** The lean of a tooth face as a word: an eye does not read degrees off it. */
function hookOf(angle: number): string {
  if (angle < -2) return 'back';
  if (angle <= 2) return 'straight';
  return angle < 12 ? 'slightly-forward' : 'forward';
}

/** Teeth are counted from 1 at the top of the blade, toward the operator. */
function seeTeeth(bench: Bench): Observation[] {
  return bladeOutline(bench.blade)
    .teeth.filter((tooth) => tooth.missing)
    .map((tooth) =>
      see('blade', isAbove(tooth.tip, bench) ? 'blade.missing' : 'blade.missing-below', {
        tooth: tooth.index + 1,
      }),
    );
}

function seePlate(bench: Bench): Observation[] {
  const { blade } = bench;
  const { cracks, burnt } = blade.condition;
  const plate = [
    ...cracks.map((crack, order) => {
      const start = bladeOutline(blade).cracks[order]?.[0];
      const place = isAbove(start, bench) ? '' : '-below';
      return see('blade', `blade.crack-${crack.at}${place}`, {
        tooth: toothBy(start, blade.teeth),
        length: byEye(crack.length, COARSE),
      });
    }),
    ...(burnt ? [see('blade', 'blade.burnt')] : []),
  ];
  return plate.length > 0 ? plate : [see('blade', 'blade.plain')];
}

/** The number of the tooth whose gullet a point on the plate lies in. */
function toothBy(point: { x: number; y: number } | undefined, teeth: number): number {
  const fromTop = Math.atan2(point?.y ?? 1, point?.x ?? 0) - Math.PI / 2;
  const pitches = (fromTop / (2 * Math.PI)) * teeth;
  return ((Math.floor(pitches + 1e-9) + teeth) % teeth) + 1;
}
