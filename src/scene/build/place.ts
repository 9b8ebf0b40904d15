import { Color } from 'three';
import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { addQuad, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';

/** Inside of the workshop, mm in the bench frame: the walls are seen from within only. */
export const ROOM = { x0: -5200, x1: 3900, z0: -3700, z1: 2800, height: 3000 } as const;

export type RoomShades = {
  readonly wall: string;
  readonly dado: string;
  readonly floor: string;
  readonly trim: string;
  readonly pane: string;
};

/** What a setting does to the shades of a room: bare walls are painted, boarded or of ply. */
const SETTINGS = {
  joinery: { wall: '#ffffff', dado: '#ffffff', floor: '#ffffff' },
  school: { wall: '#fbfffb', dado: '#d2e0dc', floor: '#d9e2d6' },
  site: { wall: '#efe0c4', dado: '#e9d4b0', floor: '#e6d6bc' },
} as const;

export type Setting = keyof typeof SETTINGS;
export const settingOf = ({ place }: Bench): Setting => place.setting ?? 'joinery';

/** The room the bench stands in: floor, walls, and the lines on the floor. */
export function placePieces(bench: Bench, shades: RoomShades): Piece[] {
  const { floor } = layoutOf(bench);
  const by = SETTINGS[settingOf(bench)];
  const tint = (colour: string, with_: string): string =>
    `#${new Color(colour).multiply(new Color(with_)).getHexString()}`;
  const room = {
    ...shades,
    wall: tint(shades.wall, by.wall),
    dado: tint(shades.dado, by.dado),
    floor: tint(shades.floor, by.floor),
  };
  return [...dimmed(bench, shell(floor, room)), ...floorMarks(bench, floor)];
}

/**
 * Darkens what lies round the bench as far as its light falls short of the light on the table, and
 * more toward the far end the less even it is.
 */
export function dimmed(bench: Bench, pieces: readonly Piece[]): Piece[] {
  const { light, lightAround, uniformityAround } = bench.place;
  const dim = Math.min(1, Math.max(0.12, (lightAround ?? light) / Math.max(1, light)) ** 0.6);
  const far = (uniformityAround ?? 1) ** 0.5;
  if (dim === 1 && far === 1) return [...pieces];
  const colour = new Color();
  return pieces.map((piece) => {
    if (piece.shades !== undefined || piece.surface === 'stain') return piece;
    const { positions } = piece.solid;
    const { r, g, b } = colour.set(piece.colour);
    const shades: number[] = [];
    for (let i = 0; i < positions.length; i += 3) {
      const along = ((positions[i] as number) - ROOM.x0) / (ROOM.x1 - ROOM.x0);
      const share = dim * (1 - (1 - far) * Math.min(1, Math.max(0, along)));
      shades.push(r * share, g * share, b * share);
    }
    return { ...piece, shades };
  });
}

export const face = (corners: readonly [Vec, Vec, Vec, Vec]): Solid => {
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
    {
      surface: 'wall',
      colour: shades.wall,
      solid: face([
        [x0, top, z0],
        [x1, top, z0],
        [x1, top, z1],
        [x0, top, z1],
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
  const back = ROOM.x0 + 1500;
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
