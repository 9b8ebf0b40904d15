import { measureBench } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { bladeOutline, crackTooth, scratchLine, toothAngle } from '../shape/index.ts';
import { byEye, type Observation, see } from './observation.ts';

/** mm: heights and cracks are judged to the nearest five */
const COARSE = 5;

const POINTS = { sharp: 'blade.sharp', dull: 'blade.dull', uneven: 'blade.uneven' } as const;

export function seeBlade(bench: Bench, turned: number): Observation[] {
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
    ...seeTeeth(bench, turned),
    see('blade', POINTS[condition.sharpness]),
    see('blade', condition.set === 'even' ? 'blade.set-even' : 'blade.set-uneven'),
    see('blade', condition.gullets === 'square' ? 'blade.gullets-square' : 'blade.gullets-round', {
      depth: byEye(blade.gulletDepth, COARSE),
    }),
    ...seePlate(bench, turned),
  ];
}

/** The lean of a tooth face as a word: an eye does not read degrees off it. */
function hookOf(angle: number): string {
  if (angle < -2) return 'back';
  if (angle <= 2) return 'straight';
  return angle < 12 ? 'slightly-forward' : 'forward';
}

/** Teeth are counted from 1 at the top of the blade as it stands, toward the operator. */
function seeTeeth(bench: Bench, turned: number): Observation[] {
  return bladeOutline(bench.blade)
    .teeth.filter((tooth) => tooth.state !== 'whole')
    .map(({ index, state }) => {
      const tooth = placeOf(bench, index, turned);
      return see('blade', `blade.${state}${belowTable(bench, tooth)}`, { tooth });
    });
}

function seePlate(bench: Bench, turned: number): Observation[] {
  const { blade } = bench;
  const { cracks, scratches = [], burnt, resin } = blade.condition;
  const plate = [
    ...cracks.map((crack, order) => {
      const tooth = placeOf(bench, crackTooth(blade, crack, order), turned);
      return see('blade', `blade.crack-${crack.at}${belowTable(bench, tooth)}`, {
        tooth,
        length: byEye(crack.length, COARSE),
      });
    }),
    ...scratches.map((scratch) => {
      const tooth = placeOf(bench, scratch.tooth, turned);
      const { radius, length } = scratchLine(blade, scratch);
      return see('blade', `blade.scratch${belowTable(bench, tooth, radius)}`, {
        tooth,
        length: byEye(length, COARSE),
      });
    }),
    ...(burnt ? [see('blade', 'blade.burnt')] : []),
  ];
  return plate.length > 0 || resin ? plate : [see('blade', 'blade.plain')];
}

/** Where a tooth stands, counted from 1 at the top, once the blade has been turned. */
function placeOf({ blade }: Bench, index: number, turned: number): number {
  // turned round on its spindle, the teeth follow one another the other way
  const along = blade.mounted === 'backwards' ? -index : index;
  return ((((along + turned) % blade.teeth) + blade.teeth) % blade.teeth) + 1;
}

/** Ends the key of what is seen at a tooth, where its gullet bottom, or what lies at `radius`, is under the table. */
function belowTable(
  { blade, arbor }: Bench,
  place: number,
  radius = blade.diameter / 2 - blade.gulletDepth,
): '' | '-below' {
  const height = radius * Math.sin(toothAngle(blade.teeth, place - 1));
  return height > arbor.depth ? '' : '-below';
}
