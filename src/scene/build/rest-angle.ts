import { asMounted, type Bench, bladeOutline } from '../../bench/index.ts';
import { layoutOf } from './layout.ts';

/**
 * How the blade has come to rest, radians about the arbor. A blade may stop anywhere; this one stops
 * where as much as possible of what is wrong with it stands in sight, between the table and the guard,
 * at the front where the operator looks. It can then be turned by hand.
 */
export function restAngle(bench: Bench): number {
  const { blade } = bench;
  const outline = bladeOutline(blade);
  const pitch = (2 * Math.PI) / blade.teeth;
  // a quarter of a pitch, so that a sound blade does not stand to attention
  const idle = pitch * 0.27;
  const flaws = [
    ...outline.cracks.map((crack) => {
      const start = crack[0] as { x: number; y: number };
      return Math.atan2(start.y, start.x);
    }),
    ...outline.teeth.filter(({ state }) => state !== 'whole').map(({ angle }) => angle),
  ].map((angle) => asMounted(blade, angle));
  if (flaws.length === 0) return blade.condition.burnt ? 0 : idle;
  const { tipRadius, rootRadius, depth, hoodRim, projection } = layoutOf(bench);
  const top = bench.guard === null ? projection : Math.min(projection, Math.max(hoodRim, 18));
  const inSight = (angle: number): number => {
    const y = rootRadius * Math.sin(angle) - depth;
    if (y < 4 || y > top - 6) return 0;
    const frontward = Math.cos(angle) < 0 ? 1 : 0.6;
    // best about half way up the opening
    return frontward * (1 - Math.abs(y - top * 0.45) / (2 * tipRadius));
  };
  let best = { angle: idle, score: -1 };
  for (let i = 0; i < blade.teeth * 4; i++) {
    const angle = (i * pitch) / 4;
    const score = flaws.reduce((sum, flaw) => sum + inSight(flaw + angle), 0);
    if (score > best.score + 1e-9) best = { angle, score };
  }
  return best.angle;
}
