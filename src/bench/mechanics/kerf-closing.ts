import { bladeFrame } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';

/**
 * How far a kerf would close behind the cut, mm, for what can be seen of a piece of stock. Nobody
 * can know it before the cut: wood holds its stresses out of sight. These are assumptions, with no
 * source, to show which way things go; they are shown beside every result that rests on them.
 */
export const ASSUMED_CLOSING = {
  /** solid wood, ripped along the grain, flat and dry */
  solid: 0.4,
  /** sheet, which is glued and pressed to lie still */
  sheet: 0,
  /** added for a piece that shows its stress already */
  bowed: 1.2,
  cupped: 0.8,
  twisted: 1.6,
  /** added for solid wood ripped above `wetAbove` per cent of moisture */
  wet: 1,
  wetAbove: 20,
} as const;

export type Closing = {
  /** mm once the kerf is as long as the piece; it grows with the length cut */
  readonly full: number;
  /** what it was put together from */
  readonly from: readonly ('solid' | 'sheet' | 'bowed' | 'cupped' | 'twisted' | 'wet')[];
  /** wood left above a blade that does not come through holds the kerf open */
  readonly held: boolean;
};

const SHEETS = /sheet|ply(wood)?\b|mdf|(chip|hard|fibre)board/i;

/** What this stock is assumed to do. Across the grain only its shape counts. */
export function closingOf(bench: Bench): Closing {
  const { job } = bench;
  const { kind, moisture, shape = 'flat' } = job.stock;
  const isSheet = SHEETS.test(kind);
  const isAlong = job.cut !== 'crosscut' && !isSheet;
  const from = [
    ...(isSheet ? (['sheet'] as const) : isAlong ? (['solid'] as const) : []),
    ...(shape === 'flat' || shape === 'round' ? [] : ([shape] as const)),
    ...(isAlong && moisture > ASSUMED_CLOSING.wetAbove ? (['wet'] as const) : []),
  ];
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const held = stock > tipRadius - depth;
  const full = held ? 0 : from.reduce((sum, one) => sum + ASSUMED_CLOSING[one], 0);
  return { full, from, held };
}
