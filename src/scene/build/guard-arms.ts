import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Beam, casting, steel } from './guard-beam.ts';

/**
 * One of the two equal arms that keep a riding guard level, about its pin on the bracket behind. The
 * upper one runs on past it and carries the weight that all but balances the guard.
 */
export function armPieces({ armLong }: Beam, which: 'upper' | 'lower'): Piece[] {
  const arm = [-1, 1].map((side) =>
    steel(box([-armLong - 13, -9, side * 10 - 3], [13, 9, side * 10 + 3], 1.5)),
  );
  if (which === 'lower') return arm;
  const weight = turned(
    [112, 0, 0],
    [1, 0, 0],
    [
      [0, 0],
      [0, 44],
      [5, 49],
      [76, 49],
      [81, 44],
      [81, 0],
    ],
    { segments: 32 },
  );
  return [
    ...arm,
    steel(box([-6, -8, -9], [40, 8, 9], 2)),
    steel(bar([30, 0, 0], [232, 0, 0], 10)),
    { surface: 'enamel', colour: COLOURS.boxDark, solid: weight },
    casting(bar([224, 0, 0], [236, 0, 0], 14)),
    // the screw that holds the weight where it balances
    steel(bar([150, 40, 0], [150, 66, 0], 6), COLOURS.blackSteel),
  ];
}
