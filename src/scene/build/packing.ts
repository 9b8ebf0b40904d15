import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** mm: how far a fitted pad and a worn one stand off the plate, and their size. */
const OFF = { fitted: 0.2, worn: 4.5 } as const;
const PAD = { long: 52, top: -11, bottom: -47, thick: 17 } as const;

/**
 * The pads beside the plate under the front of the mouth, inside the gullets' circle so that no tooth
 * meets them. In the blade plane; nothing where the bench is not made for them.
 */
export function packingPieces(bench: Bench): Piece[] {
  const { packing } = bench.arbor;
  if (packing === undefined || packing === 'none') return [];
  const { rootRadius, depth } = layoutOf(bench);
  const room = rootRadius ** 2 - (depth + PAD.top) ** 2;
  if (room <= 0) return [];
  const from = -Math.sqrt(room) + 5;
  const near = bench.blade.plate / 2 + OFF[packing];
  const far = near + PAD.thick;
  const worn = packing === 'worn';
  return [-1, 1].flatMap((side): Piece[] => [
    {
      surface: 'timber',
      colour: worn ? COLOURS.packingWorn : COLOURS.packing,
      solid: worn
        ? prism({
            plane: 'plan',
            outline: chewed(from, near, side),
            from: PAD.bottom,
            to: PAD.top,
          })
        : box([from, PAD.bottom, side * near], [from + PAD.long, PAD.top, side * far], 1),
      mesh: 'insert-packing',
    },
    {
      surface: 'iron',
      colour: COLOURS.ironEdge,
      solid: box(
        [from - 3, PAD.bottom - 4, side * far],
        [from + PAD.long + 3, PAD.top - 6, side * (far + 6)],
        1,
      ),
    },
  ]);
}

/** A pad whose face has crumbled away from the plate; points are (z, x). */
function chewed(from: number, near: number, side: number): { x: number; y: number }[] {
  const random = seededRandom(31);
  const steps = 9;
  const face = Array.from({ length: steps + 1 }, (_, i) => ({
    x: side * (near + random() * 5),
    y: from + (PAD.long * i) / steps,
  }));
  const back = side * (near + PAD.thick);
  return [...face, { x: back, y: from + PAD.long }, { x: back, y: from }];
}
