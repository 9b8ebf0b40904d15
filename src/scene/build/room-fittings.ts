import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import type { Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';
import { face, ROOM, type RoomShades, settingOf } from './place.ts';

/** How a shade of paint, timber or steel is written down in a list of boxes. */
export const boxes = (
  surface: Piece['surface'],
  colour: string,
  list: readonly (readonly [number, number, number, number, number, number])[],
  chamfer = 2,
): Piece[] =>
  list.map(([x0, y0, z0, x1, y1, z1]) => ({
    surface,
    colour,
    solid: box([x0, y0, z0], [x1, y1, z1], chamfer),
  }));

/** Windows, the door, the lamps: what every room has, in the manner of each setting. */
export function roomFittings(bench: Bench, shades: RoomShades): Piece[] {
  const { floor } = layoutOf(bench);
  return [
    ...windows(bench, floor, shades),
    ...door(floor, shades),
    ...lamps(bench, floor),
    ...aid(floor),
  ];
}

type Place = (u: number, y: number, out: number) => Vec;
const FAR: Place = (u, y, out) => [ROOM.x1 - out, y, u];
const RIGHT: Place = (u, y, out) => [u, y, ROOM.z1 - out];

/** Steel windows in the joinery shop, a high ribbon at the school, two small ones in a site hut. */
const OPENINGS = {
  joinery: [
    [FAR, -1700, -200, 1250, 2450, 4],
    [FAR, 400, 1900, 1250, 2450, 4],
    [RIGHT, -600, 1400, 1250, 2450, 5],
  ],
  school: [
    [FAR, -2400, 2100, 1750, 2600, 7],
    [RIGHT, -1150, 2100, 1750, 2600, 5],
  ],
  site: [
    [FAR, -700, 300, 1150, 1950, 2],
    [RIGHT, 300, 1300, 1150, 1950, 2],
  ],
} as const;

function windows(bench: Bench, floor: number, shades: RoomShades): Piece[] {
  return OPENINGS[settingOf(bench)].flatMap(([at, from, to, low, high, columns]) => {
    const [sill, head] = [floor + low, floor + high];
    const pane = [at(from, sill, 6), at(to, sill, 6), at(to, head, 6), at(from, head, 6)] as const;
    const [a, b, c, d] = pane;
    const trim = (p: Vec, q: Vec): Piece => ({
      surface: 'wall',
      colour: shades.trim,
      solid: box(p, q),
    });
    return [
      {
        surface: 'mark' as const,
        colour: shades.pane,
        solid: face(at === FAR ? [a, b, c, d] : [d, c, b, a]),
      },
      ...Array.from({ length: columns + 1 }, (_, i) => {
        const u = from + ((to - from) * i) / columns;
        return trim(at(u - 16, sill - 16, 0), at(u + 16, head + 16, 34));
      }),
      ...[sill, (sill + head) / 2, head].map((y) => trim(at(from, y - 16, 0), at(to, y + 16, 34))),
      trim(at(from - 60, sill - 60, 0), at(to + 60, sill - 20, 120)),
    ];
  });
}

/** A double door behind the operator, with its frame and its handle. */
function door(floor: number, { trim, dado }: RoomShades): Piece[] {
  const x = ROOM.x0;
  return [
    ...boxes('wall', dado, [
      [x, floor, -680, x + 34, floor + 2080, -6],
      [x, floor, 6, x + 34, floor + 2080, 680],
    ]),
    ...boxes('wall', trim, [
      [x, floor, -760, x + 60, floor + 2160, -680],
      [x, floor, 680, x + 60, floor + 2160, 760],
      [x, floor + 2080, -760, x + 60, floor + 2160, 760],
    ]),
    ...boxes('steel', COLOURS.groundSteel, [
      [x + 34, floor + 960, -70, x + 78, floor + 1120, -46],
      [x + 34, floor + 960, 46, x + 78, floor + 1120, 70],
    ]),
  ];
}

/** Where lamps hang: the first is the one that throws the shadows. */
const LAMPS = [
  [-790, -680],
  [1500, -680],
  [-790, 1000],
  [1500, 1000],
] as const;
const LIT = '#ffffff';
const DEAD = '#8d8f8e';

/**
 * The less even the light, the more lamps are out; the first never is. Tubes on the plain mains have
 * blackened ends (common practice, no published source).
 */
function lamps(bench: Bench, floor: number): Piece[] {
  const { uniformity, flicker } = bench.place;
  const out = Math.min(3, Math.max(0, Math.round((0.75 - uniformity) * 6)));
  const y = floor + 2600;
  return LAMPS.flatMap(([x, z], i): Piece[] => {
    const colour = i > 3 - out ? DEAD : LIT;
    if (settingOf(bench) === 'site')
      return bulb(x, z, floor, colour, flicker === true ? 'plain' : 'steady');
    const wide = settingOf(bench) === 'school' ? 300 : 90;
    const tubes: Piece[] = [-1, 1].flatMap((side) => {
      const at = z + side * wide * 0.5;
      const ends = (u: number): Piece => ({
        surface: 'mark',
        colour: '#2b2826',
        solid: bar([x + u - 90, y - 24, at], [x + u + 90, y - 24, at], 17, 10),
      });
      return [
        {
          surface: 'mark',
          colour,
          solid: bar([x - 640, y - 24, at], [x + 640, y - 24, at], 16, 10),
        },
        ...(flicker === true ? [ends(-545), ends(545)] : []),
      ];
    });
    return [
      ...boxes('enamel', '#e4e5e2', [[x - 690, y, z - wide, x + 690, y + 46, z + wide]], 6),
      ...(flicker === true
        ? []
        : boxes('mark', colour, [[x - 660, y - 6, z - wide + 14, x + 660, y, z + wide - 14]], 0)),
      ...tubes,
      ...[-500, 500].map(
        (u): Piece => ({
          surface: 'steel',
          colour: COLOURS.blackSteel,
          solid: bar([x + u, y + 40, z], [x + u, floor + 3000, z], 5, 6),
        }),
      ),
    ];
  });
}

/** A bulb in a cage on a cable, as hung in a hut; on a plain ballast it is a tube with dark ends. */
function bulb(
  x: number,
  z: number,
  floor: number,
  colour: string,
  kind: 'plain' | 'steady',
): Piece[] {
  const y = floor + 2420;
  const steel = (solid: Piece['solid']): Piece => ({
    surface: 'steel',
    colour: COLOURS.blackSteel,
    solid,
  });
  return [
    steel(bar([x, y + 60, z], [x, floor + 3000, z], 6, 6)),
    {
      surface: 'enamel',
      colour: COLOURS.bakelite,
      solid: bar([x, y + 20, z], [x, y + 100, z], 34, 12),
    },
    ...(kind === 'plain'
      ? [
          {
            surface: 'mark' as const,
            colour,
            solid: bar([x - 300, y, z], [x + 300, y, z], 18, 10),
          },
          ...[-250, 250].map(
            (u): Piece => ({
              surface: 'mark',
              colour: '#2b2826',
              solid: bar([x + u - 50, y, z], [x + u + 50, y, z], 19, 10),
            }),
          ),
        ]
      : [
          {
            surface: 'mark' as const,
            colour,
            solid: turned(
              [x, y + 30, z],
              [0, -1, 0],
              [
                [0, 26],
                [40, 52],
                [90, 60],
                [130, 44],
                [150, 0],
              ],
              {
                segments: 14,
                smooth: 'profile',
              },
            ),
          },
        ]),
    ...[0, 1, 2].map((i) => {
      const turn = (i * Math.PI) / 3;
      const [c, s] = [Math.cos(turn) * 72, Math.sin(turn) * 72];
      return steel(bar([x - c, y - 60, z - s], [x + c, y - 60, z + s], 3, 5));
    }),
  ];
}

/** White cross on green is the sign of first aid (ISO 7010-E003), and is kept for it. */
function aid(floor: number): Piece[] {
  const [x, y, z] = [ROOM.x0, floor + 1350, 1250];
  return [
    ...boxes('enamel', '#eceeea', [[x, y, z, x + 130, y + 300, z + 400]], 8),
    ...boxes('mark', '#00785a', [[x + 130, y + 60, z + 110, x + 132, y + 240, z + 290]], 0),
    ...boxes(
      'mark',
      '#ffffff',
      [
        [x + 132, y + 135, z + 135, x + 134, y + 165, z + 265],
        [x + 132, y + 85, z + 185, x + 134, y + 215, z + 215],
      ],
      0,
    ),
  ];
}
