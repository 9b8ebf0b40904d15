import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import type { Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Layout, layoutOf } from './layout.ts';
import { stockBox } from './stock.ts';
import { hasSlot, SLOT } from './table.ts';

/** mm: length of its bar, and from the face of its fence to the middle of its head. */
const BAR = 460;
const HEAD = 62;

/**
 * The mitre gauge in its slot: behind the work for a crosscut, drawn back to the operator's edge for a
 * bevel along the fence. None is out for other work, or where the table has no slot for it.
 */
export function mitreGaugePieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const face = gaugeFace(bench, layout);
  if (face === null) return [];
  const { z } = SLOT;
  const x = face - HEAD;
  const iron = (solid: Piece['solid']): Piece => ({
    surface: 'iron',
    colour: COLOURS.alloy,
    solid,
  });
  const steel = (solid: Piece['solid'], colour: string = COLOURS.brightSteel): Piece => ({
    surface: 'steel',
    colour,
    solid,
  });
  // half a disc, its straight side to the work, graduated along its rim
  const disc = Array.from({ length: 25 }, (_, i) => {
    const angle = (i * Math.PI) / 24;
    return { x: z + 84 * Math.cos(angle), y: x + 30 - 84 * Math.sin(angle) };
  });
  const marks = Array.from({ length: 25 }, (_, i): Piece => {
    const angle = ((30 + i * 5) * Math.PI) / 180;
    const long = i % 3 === 0 ? 13 : 8;
    const at = (r: number, side: number) => ({
      x: z + r * Math.cos(angle) - side * Math.sin(angle),
      y: x + 30 - r * Math.sin(angle) - side * Math.cos(angle),
    });
    return {
      surface: 'iron',
      colour: COLOURS.boxDark,
      solid: prism({
        plane: 'plan',
        outline: [at(81, -0.6), at(81, 0.6), at(81 - long, 0.6), at(81 - long, -0.6)],
        from: 15.9,
        to: 16.2,
      }),
    };
  });
  const knob: Vec = [x - 4, 16, z];
  return [
    steel(
      box(
        [face - BAR + 130, -SLOT.depth + 0.4, z - SLOT.width / 2 + 0.2],
        [face + 130, 0.1, z + SLOT.width / 2 - 0.2],
        0.6,
      ),
    ),
    iron(prism({ plane: 'plan', outline: disc, from: 0.8, to: 16, chamfer: 1.5 })),
    ...marks,
    iron(box([face - 26, 1, z - 132], [face - 19, 66, z + 104], 2)),
    iron(
      prism({
        plane: 'plan',
        outline: roundedRectangle([z - 66, face - 44], [z + 66, face - 22], 6),
        from: 1,
        to: 44,
        chamfer: 2,
      }),
    ),
    // the wooden face that the work lies against
    {
      surface: 'timber',
      colour: COLOURS.stick,
      grain: 'z',
      solid: box([face - 19, 1, z - 172], [face, 72, z + facing(bench, layout)], 1.5),
      mesh: 'mitre-face',
    },
    steel(bar(knob, [knob[0], 38, z], 5)),
    {
      surface: 'enamel',
      colour: COLOURS.bakelite,
      solid: turned(
        [knob[0], 34, z],
        [0, 1, 0],
        [
          [0, 0],
          [0, 17],
          [4, 20],
          [20, 20],
          [25, 15],
          [26, 0],
        ],
      ),
    },
  ];
}

/** How far the face reaches toward the blade from the slot: short of the guard and the line of cut. */
const facing = (bench: Bench, { hoodHalf }: Layout): number =>
  -SLOT.z - Math.max(hoodHalf, bench.blade.kerf / 2) - 12;

/** x of the face with the stock ready; null where no gauge is out. */
function gaugeFace(bench: Bench, layout: Layout): number | null {
  const { cut } = bench.job;
  if (!hasSlot(layout) || (cut !== 'crosscut' && cut !== 'bevel')) return null;
  const { from } = stockBox(bench);
  if (cut === 'crosscut') return from[0];
  // beside work that covers the slot there is no room for it
  return from[2] < SLOT.z + 110 ? null : layout.tableFront + 190;
}
