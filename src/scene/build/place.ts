import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import {
  addQuad,
  emptySolid,
  movedSolid,
  type Solid,
  turnAbout,
  type Vec,
} from '../shape/solid.ts';
import { turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** Inside of the workshop, mm in the bench frame: the walls are seen from within only. */
export const ROOM = { x0: -4200, x1: 3600, z0: -2900, z1: 2500, height: 3000 } as const;

export type RoomShades = {
  readonly wall: string;
  readonly dado: string;
  readonly floor: string;
  readonly trim: string;
  readonly pane: string;
};

/** The workshop round the bench: floor, line of cut, walls with windows, boards by the wall. */
export function placePieces(bench: Bench, shades: RoomShades): Piece[] {
  const { floor } = layoutOf(bench);
  return [
    ...shell(floor, shades),
    ...windows(floor, shades),
    ...floorMarks(bench, floor),
    ...leaningBoards(floor),
    ...(bench.place.wasteBin ? bin(floor) : []),
  ];
}

const face = (corners: readonly [Vec, Vec, Vec, Vec]): Solid => {
  const solid = emptySolid();
  addQuad(solid, corners);
  return solid;
};

function shell(floor: number, shades: RoomShades): Piece[] {
  const { x0, x1, z0, z1, height } = ROOM;
  const dado = floor + 1120;
  const top = floor + height;
  const wall = (y0: number, y1: number, colour: string): Piece[] => [
    {
      surface: 'wall',
      colour,
      solid: face([
        [x1, y0, z0],
        [x1, y0, z1],
        [x1, y1, z1],
        [x1, y1, z0],
      ]),
    },
    {
      surface: 'wall',
      colour,
      solid: face([
        [x0, y0, z1],
        [x0, y0, z0],
        [x0, y1, z0],
        [x0, y1, z1],
      ]),
    },
    {
      surface: 'wall',
      colour,
      solid: face([
        [x1, y0, z1],
        [x0, y0, z1],
        [x0, y1, z1],
        [x1, y1, z1],
      ]),
    },
    {
      surface: 'wall',
      colour,
      solid: face([
        [x0, y0, z0],
        [x1, y0, z0],
        [x1, y1, z0],
        [x0, y1, z0],
      ]),
    },
  ];
  return [
    {
      surface: 'floor',
      colour: shades.floor,
      solid: face([
        [x0, floor, z1],
        [x1, floor, z1],
        [x1, floor, z0],
        [x0, floor, z0],
      ]),
    },
    ...wall(floor, dado, shades.dado),
    ...wall(dado, top, shades.wall),
    {
      surface: 'wall',
      colour: shades.trim,
      solid: box([x1 - 18, floor, z0], [x1, floor + 110, z1]),
    },
    {
      surface: 'wall',
      colour: shades.trim,
      solid: box([x0, floor, z1 - 18], [x1, floor + 110, z1]),
    },
    {
      surface: 'wall',
      colour: shades.trim,
      solid: box([x0, floor, z0], [x1, floor + 110, z0 + 18]),
    },
  ];
}

/** Steel windows in the far wall and on the fence side. */
function windows(floor: number, shades: RoomShades): Piece[] {
  const pieces: Piece[] = [];
  const [sill, head] = [floor + 1250, floor + 2450];
  const add = (
    at: (u: number, y: number, out: number) => Vec,
    from: number,
    to: number,
    order: 1 | -1,
  ) => {
    const pane = [at(from, sill, 6), at(to, sill, 6), at(to, head, 6), at(from, head, 6)] as [
      Vec,
      Vec,
      Vec,
      Vec,
    ];
    pieces.push({
      surface: 'mark',
      colour: shades.pane,
      solid: face(order > 0 ? pane : (pane.reverse() as never)),
      mesh: 'place-glass',
    });
    const columns = 4;
    for (let i = 0; i <= columns; i++) {
      const u = from + ((to - from) * i) / columns;
      pieces.push({
        surface: 'wall',
        colour: shades.trim,
        solid: box(at(u - 16, sill - 16, 0), at(u + 16, head + 16, 34)),
      });
    }
    for (const y of [sill, (sill + head) / 2, head]) {
      pieces.push({
        surface: 'wall',
        colour: shades.trim,
        solid: box(at(from, y - 16, 0), at(to, y + 16, 34)),
      });
    }
    pieces.push({
      surface: 'wall',
      colour: shades.trim,
      solid: box(at(from - 60, sill - 60, 0), at(to + 60, sill - 20, 120)),
    });
  };
  add((u, y, out) => [ROOM.x1 - out, y, u], -1700, -200, 1);
  add((u, y, out) => [ROOM.x1 - out, y, u], 400, 1900, 1);
  add((u, y, out) => [u, y, ROOM.z1 - out], -600, 1400, -1);
  return pieces;
}

/**
 * Painted on the floor: the line of cut carried back from the blade, to be kept clear, and the edge of
 * the working space round the bench when it is marked.
 */
function floorMarks(bench: Bench, floor: number): Piece[] {
  const layout = layoutOf(bench);
  const y = floor + 0.6;
  const strip = (x0: number, x1: number, z0: number, z1: number): Piece => ({
    surface: 'stain',
    colour: COLOURS.line,
    solid: face([
      [x0, y, z1],
      [x1, y, z1],
      [x1, y, z0],
      [x0, y, z0],
    ]),
    alphas: Array.from({ length: 6 }, () => 0.72),
    mesh: 'place-lines',
  });
  const back = ROOM.x0 + 900;
  const dashes = Array.from({ length: 9 }, (_, i) => {
    const x = layout.tableFront - 180 - i * 300;
    return x - 190 > back ? strip(x - 190, x, -18, 18) : null;
  }).filter((piece) => piece !== null);
  if (!bench.place.walkwaysMarked) return dashes;
  const [x0, x1, z0, z1] = [
    layout.tableFront - 1500,
    layout.outfeed + 900,
    -layout.halfWidth - 1050,
    layout.halfWidth + 1050,
  ];
  const w = 60;
  return [
    ...dashes,
    strip(x0, x1, z0, z0 + w),
    strip(x0, x1, z1 - w, z1),
    strip(x0, x0 + w, z0 + w, z1 - w),
    strip(x1 - w, x1, z0 + w, z1 - w),
  ];
}

/** Boards leaning by the far wall, waiting their turn. */
function leaningBoards(floor: number): Piece[] {
  const random = seededRandom(9);
  const shades = ['#c4b9a4', '#b8ab93', '#978873', '#c9bfab', '#a6998a'];
  return Array.from({ length: 8 }, (_, i) => {
    const width = 110 + random() * 120;
    const length = 1700 + random() * 750;
    const thick = 24 + random() * 22;
    const lean = 0.13 + random() * 0.05;
    const board = box([-thick, 0, 0], [0, length, width], 1.5);
    const z = 1050 + i * 150 + random() * 30;
    return {
      surface: 'timber' as const,
      colour: shades[i % shades.length] as string,
      grain: 'y' as const,
      solid: movedSolid(board, turnAbout('z', -lean), [
        ROOM.x1 - 30 - length * Math.sin(lean),
        floor + 4,
        z - 950,
      ]),
    };
  });
}

function bin(floor: number): Piece[] {
  const at: Vec = [-1500, floor, 1500];
  return [
    {
      surface: 'enamel',
      colour: COLOURS.boxDark,
      solid: turned(
        at,
        [0, 1, 0],
        [
          [0, 0],
          [0, 190],
          [10, 196],
          [560, 240],
          [566, 250],
          [580, 250],
          [580, 236],
          [40, 186],
          [40, 0],
        ],
        { segments: 36 },
      ),
    },
  ];
}
