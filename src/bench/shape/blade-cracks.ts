import { distance, type Point, pointAt } from '../../geometry/index.ts';
import type { Blade } from '../schema/index.ts';
import { boreRadius } from './blade-fittings.ts';
import type { Tooth } from './blade-outline.ts';

type Crack = Blade['condition']['cracks'][number];

const ORIGIN: Point = { x: 0, y: 0 };

/**
 * The tooth a crack of the blade starts at, counted from 0. Those without a stated place are spread
 * round the rim, never all in a row.
 */
export const crackTooth = (blade: Blade, { tooth }: Crack, order: number): number =>
  (tooth ?? 3 + order * 7) % blade.teeth;

/**
 * How far a crack stands off its straight line at each step, as shares of its length. In a rolled
 * plate it runs nearly straight and wavers slowly (common practice, no source).
 */
const WAVER = [0, 0.006, 0.011, 0.007, -0.002, -0.007, -0.004] as const;

/**
 * A crack as a broken line from the edge it starts at, mm about the arbor axis. From a gullet it starts
 * at the bottom, in the corner by the face where the bottom is square; from the rim on the back of its
 * tooth; from the bore outward under the flange. The first point lies on the outline itself.
 * @param floor the bottom of the gullet in front of that tooth, from its face on
 */
export function shapeCrack(
  blade: Blade,
  crack: Crack,
  tooth: Tooth,
  floor: readonly Point[],
): Point[] {
  const bottom = floor.reduce((a, b) => (distance(b, ORIGIN) < distance(a, ORIGIN) - 1e-9 ? b : a));
  const bore = boreRadius(blade);
  const behind = tooth.back[tooth.back.length - 1] ?? tooth.tip;
  const onBack = { x: (tooth.tip.x + behind.x) / 2, y: (tooth.tip.y + behind.y) / 2 };
  const from = crack.at === 'rim' ? onBack : bottom;
  const angle = Math.atan2(from.y, from.x);
  const radius = crack.at === 'bore' ? bore : distance(from, ORIGIN);
  const [way, room] =
    crack.at === 'bore' ? [1, blade.diameter / 2 - blade.gulletDepth - bore] : [-1, radius - bore];
  const length = Math.min(crack.length, room);
  return WAVER.map((share, i) => {
    const at = radius + (way * length * i) / (WAVER.length - 1);
    return pointAt(ORIGIN, at, angle + (share * length) / at);
  });
}
