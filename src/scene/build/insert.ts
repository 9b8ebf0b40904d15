import { type Bench, knifeOutline } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid } from '../shape/solid.ts';
import { turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

const THICKNESS = 9;
/** mm an insert that is not firm stands up along its left edge. */
const RISEN = 3;

/** The insert in the table's mouth, its slot open by the two gaps of the bench. */
export function insertPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { mouth, tipRadius, tilt } = layout;
  const { insert, blade } = bench;
  const step = insert.step;
  const slack = 0.4;
  // not firm in its seat: its left edge has risen, and the screws there have backed out
  const loosely = (solid: Solid): Solid => ({
    ...solid,
    positions: solid.positions.map((value, i, all) =>
      insert.firm === false && i % 3 === 1
        ? value + (RISEN * Math.max(0, -(all[i + 1] as number))) / mouth.half
        : value,
    ),
  });
  const backedOut = (piece: Piece): Piece => ({
    ...piece,
    solid: movedSolid(piece.solid, (v) => v, [0, RISEN + 4, 0]),
  });
  const [left, right] = [-blade.kerf / 2 - insert.gaps[0], blade.kerf / 2 + insert.gaps[1]];
  const slotFrom = Math.max(mouth.from + 12, -tipRadius - 9);
  const slotTo = Math.min(mouth.to - 16, Math.max(tipRadius + 12, backOfKnife(bench) + 22));
  const outline = roundedRectangle(
    [-mouth.half + slack, mouth.from + slack],
    [mouth.half - slack, mouth.to - slack],
    13.6,
    5,
  );
  const slot = insert.worn
    ? wornSlot(left, right, slotFrom, slotTo)
    : roundedRectangle([left, slotFrom], [right, slotTo], Math.min(2.5, (right - left) / 2), 3);
  const plate = prism({
    plane: 'plan',
    outline,
    holes: [slot],
    from: step - THICKNESS,
    to: step,
    chamfer: 0.7,
  });
  return [
    {
      surface: 'timber',
      colour: insert.worn ? COLOURS.insertWorn : COLOURS.insert,
      solid: loosely(tilt === 0 ? plate : leanSlot(plate, tilt, step, mouth.half - 8)),
      mesh: 'insert-plate',
    },
    ...screws(mouth, step).map((piece, i) =>
      insert.firm === false && i % 2 === 0 ? backedOut(piece) : piece,
    ),
  ];
}

function backOfKnife(bench: Bench): number {
  if (bench.knife === null) return 0;
  const { outline } = knifeOutline(bench.knife, bench.arbor.depth);
  return Math.max(...outline.filter(({ y }) => y <= 0 && y >= -THICKNESS * 3).map(({ x }) => x));
}

/** Chewed edges: splinters torn away from the slot. The gap where it was measured stays. */
function wornSlot(left: number, right: number, from: number, to: number): Point[] {
  const random = seededRandom(77);
  const count = 46;
  const edge = (z: number, sign: number, i: number): Point => {
    const deep = random() < 0.3 ? random() * 3.4 : random() * 0.7;
    return { x: z + (i % 6 === 0 ? 0 : sign * deep), y: from + ((to - from) * i) / count };
  };
  const steps = Array.from({ length: count + 1 }, (_, i) => i);
  return [
    ...steps.map((i) => edge(right, 1, i)),
    ...steps.toReversed().map((i) => edge(left, -1, i)),
  ];
}

/** With the arbor tilted the slot's walls lean with the blade; its edges at the top stay true. */
function leanSlot(plate: Solid, tilt: number, top: number, keep: number): Solid {
  const positions = plate.positions.slice();
  for (let i = 0; i < positions.length; i += 3) {
    const [y, z] = [positions[i + 1] as number, positions[i + 2] as number];
    if (Math.abs(z) < keep) positions[i + 2] = z + (y - top) * Math.tan(tilt);
  }
  return { ...plate, positions };
}

function screws(mouth: { from: number; to: number; half: number }, step: number): Piece[] {
  const places = [mouth.from + 20, mouth.to - 20].flatMap((x) =>
    [-mouth.half + 17, mouth.half - 17].map((z) => [x, z] as const),
  );
  return places.flatMap(([x, z]): Piece[] => [
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: turned(
        [x, step - 2, z],
        [0, 1, 0],
        [
          [0, 5.4],
          [2.05, 5.4],
          [2.05, 2.6],
          [1.1, 2.3],
          [1.1, 0],
        ],
        {
          segments: 16,
        },
      ),
    },
  ]);
}
