import type { Bench, Guard } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { beamOf, casting, clampLever, OVER_ROOF, POST_TRAVEL, steel } from './guard-beam.ts';
import type { Layout } from './layout.ts';

/** The two posts of the hood and the carriage they slide in, clamped by hand. */
export function hangers(bench: Bench, guard: Guard, layout: Layout): Piece[] {
  const { up } = beamOf(bench, layout);
  const centre = (guard.front + guard.rear) / 2;
  const spread = Math.min(74, (guard.rear - guard.front) * 0.2);
  const roof = layout.hoodRim + layout.hoodDepth;
  const top = roof + OVER_ROOF + POST_TRAVEL + 30;
  const posts = [-spread, spread].flatMap((dx) => [
    steel(bar([centre + dx, roof - 8, 0], [centre + dx, top, 0], 9, 18)),
    steel(hexagon([centre + dx, roof, 0], [0, 1, 0], 26, 9), COLOURS.blackSteel),
    casting(bar([centre + dx, top - 4, 0], [centre + dx, top + 7, 0], 12, 14)),
  ]);
  return [
    casting(box([centre - spread - 26, up - 26, -28], [centre + spread + 26, up + 26, 28], 5)),
    ...posts,
    ...clampLever([centre, up, -28], [0, 0, -1], guard),
  ];
}
