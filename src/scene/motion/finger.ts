import type { Point } from '../../geometry/index.ts';
import type { Work } from './lift.ts';

/** mm from the pin of a finger to its last tooth. */
export const FINGER_LENGTH = 104;
/** Radians: hooked up out of use, and as far down as its stop lets it hang. */
const HOOKED = 0.5;
const HANGING = -1.48;

/** One finger lying along +x from its pin, its toothed end curved underneath. */
export function fingerOutline(): Point[] {
  const teeth = Array.from({ length: 4 }, (_, i): Point[] => {
    const x = FINGER_LENGTH - 30 + i * 10;
    return [
      { x, y: -6.5 + i * 1.6 },
      { x: x + 8.2, y: i === 3 ? 0 : -8 + i * 1.6 },
    ];
  }).flat();
  return [
    { x: -9, y: -5 },
    { x: 0, y: -9 },
    { x: 30, y: -6 },
    { x: 62, y: -4.5 },
    ...teeth,
    { x: FINGER_LENGTH - 6, y: 7 },
    { x: 62, y: 8 },
    { x: 24, y: 9 },
    { x: 0, y: 10 },
    { x: -9, y: 5 },
  ];
}

/** Its underside, close enough that no corner of the work slips between two points. */
const UNDERSIDE: readonly Point[] = (() => {
  const low = fingerOutline().slice(0, 12);
  return low.slice(1).flatMap((b, i) => {
    const a = low[i] as Point;
    const steps = Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 1.5);
    return Array.from({ length: steps }, (_, k) => ({
      x: a.x + ((b.x - a.x) * (k + 1)) / steps,
      y: a.y + ((b.y - a.y) * (k + 1)) / steps,
    }));
  });
})();

/**
 * How far a finger has turned about its pin, radians, negative down. Resting, it hangs until it meets
 * the table or the work, which it trails on; raised, it is hooked up whatever passes.
 */
export function fingerTurn(state: 'raised' | 'resting', pin: Point, work: Work | null): number {
  if (state === 'raised') return HOOKED;
  const clear = (angle: number): boolean => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return UNDERSIDE.every((p) => {
      const x = pin.x + p.x * c - p.y * s;
      const y = pin.y + p.x * s + p.y * c;
      const under = work !== null && x >= work.trail && x <= work.lead ? work.top : 0;
      return y >= under;
    });
  };
  if (clear(HANGING)) return HANGING;
  let [low, high] = [HANGING, HOOKED];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (clear(middle)) high = middle;
    else low = middle;
  }
  return high;
}
