import type { Bench } from '../../bench/index.ts';
import { levelDimension, type Sized } from '../dimension.ts';
import type { Clip, Sheet } from '../sheet.ts';

/** mm of insert shown on each side of the slot, and of the view below and above the table. */
const INSERT_SHOWN = 16;
const BELOW = 17;
const ABOVE = 9;
/** Sheet units under the picture for the figures of the two gaps. */
export const MOUTH_ROW = 62;

/** A close view of the mouth of the table from the take-off end: the slot, and the insert beside it. */
export function mouthClip({ blade, insert }: Bench): Clip {
  const half = blade.kerf / 2 + Math.max(...insert.gaps) + INSERT_SHOWN;
  return { left: -half, right: half, bottom: -BELOW, top: ABOVE };
}

/** One gap between the side of the kerf and the insert. The operator's left lies at larger x here. */
export function drawMouthGap(
  { blade }: Bench,
  { at, clip }: Sheet,
  sized: Sized,
  side: 'left' | 'right',
): string {
  const away = side === 'left' ? 1 : -1;
  const from = (away * blade.kerf) / 2;
  const level = (x: number) => at({ x, y: 0 });
  return levelDimension(
    sized,
    level(from),
    level(from + away * sized.mm),
    at({ x: 0, y: clip.bottom }).y + MOUTH_ROW / 3,
  );
}
