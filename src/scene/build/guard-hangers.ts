import type { Bench, Guard } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { beamOf, casting, clampLever, steel } from './guard-beam.ts';
import type { Layout } from './layout.ts';

/** Carriage on the bar, the two rods down to the hood, and flaps where the guard has them. */
export function hangers(bench: Bench, guard: Guard, layout: Layout): Piece[] {
  const { up } = beamOf(bench, layout);
  const centre = (guard.front + guard.rear) / 2;
  const spread = Math.min(74, (guard.rear - guard.front) * 0.2);
  const roof = layout.hoodRim + layout.hoodDepth;
  const rods = [-spread, spread].flatMap((dx) => [
    steel(bar([centre + dx, roof - 8, 0], [centre + dx, up + 26, 0], 9, 18)),
    steel(hexagon([centre + dx, roof, 0], [0, 1, 0], 26, 9), COLOURS.blackSteel),
    steel(hexagon([centre + dx, up + 26, 0], [0, 1, 0], 24, 10), COLOURS.blackSteel),
  ]);
  return [
    casting(box([centre - spread - 26, up - 26, -28], [centre + spread + 26, up + 26, 28], 5)),
    ...rods,
    ...clampLever([centre, up, -28], [0, 0, -1], guard),
    ...(guard.kind === 'self-closing' ? flaps(guard, layout) : []),
  ];
}

/** Flaps at both sides that the work lifts; they close down to the table, or stick where they are. */
function flaps(guard: Guard, layout: Layout): Piece[] {
  const { hoodHalf: half, hoodRim: rim } = layout;
  const bottom = guard.stuck ? rim + 4 : Math.min(2, rim);
  const front = Math.max(guard.front + 20, -layout.halfAtTable - 30) + 6;
  return [half + 1, -half - 3].map((z) => ({
    surface: 'steel',
    colour: COLOURS.groundSteel,
    solid: box([front, bottom, z], [guard.rear - 20, rim + 22, z + 2], 0.6),
    mesh: 'guard-flaps',
  }));
}
