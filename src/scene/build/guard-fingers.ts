import type { Guard } from '../../bench/index.ts';
import { fingerOutline } from '../motion/finger.ts';
import { fingerPin } from '../motion/guard-over-work.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Layout } from './layout.ts';

/**
 * Anti-kickback fingers, a pair on each side near the tail of the guard, about their pin. Resting, they
 * trail toward the take-off end with their teeth on whatever lies below, so that work thrown back digs
 * them in; raised, they are hooked up along the hood.
 */
export const fingerPieces = ({ hoodHalf: half }: Layout): Piece[] =>
  [half + 4, half + 10, -half - 8, -half - 14].map((z) => ({
    surface: 'steel',
    colour: COLOURS.groundSteel,
    solid: prism({ plane: 'side', outline: fingerOutline(), from: z, to: z + 4, chamfer: 0.5 }),
    mesh: 'guard-fingers',
  }));

/** The pin they turn on, through the tail of the hood. */
export function fingerPinPieces(guard: Guard, { hoodHalf: half, hoodRim }: Layout): Piece[] {
  const { x, y } = fingerPin(guard.rear, hoodRim);
  return [
    bar([x, y, -half - 19], [x, y, half + 19], 5),
    ...[1, -1].map((side) => hexagon([x, y, side * (half + 16)], [0, 0, side], 15, 7)),
  ].map((solid) => ({ surface: 'steel', colour: COLOURS.blackSteel, solid }));
}
