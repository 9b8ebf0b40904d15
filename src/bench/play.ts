import type { ClampedPart } from './actions.ts';
import type { Bench } from './schema/index.ts';

/** mm: a part with its clamp open moves freely in the hand, a locked one by its play. */
const LOOSE_MOVEMENT = 10;

/** Side-to-side movement of a part in the hand, mm; null when it is off. */
export function playOf(bench: Bench, part: ClampedPart): number | null {
  const held = bench[part];
  if (held === null) return null;
  return held.locked ? held.play : LOOSE_MOVEMENT;
}
