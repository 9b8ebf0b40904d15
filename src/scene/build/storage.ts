import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, turnAbout, type Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { isolatorPlace } from './isolator.ts';
import { layoutOf } from './layout.ts';
import { ROOM } from './place.ts';
import { boxes } from './room-fittings.ts';

const SHADES = ['#c4b9a4', '#b8ab93', '#a58f73', '#c9bfab', '#a6998a'];

/** What is kept in the workshop, and how. What was not looked at is drawn as it ought to be. */
export function storagePieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { floor } = layout;
  const { stock, blades, blocksWay, solvents } = bench.place.storage ?? {};
  return [
    ...(stock === 'leaning' ? leaning(floor) : stock === 'stacked' ? pile(floor) : rack(floor)),
    ...(blades === 'loose' ? looseBlades(floor) : bladeRack(floor)),
    ...(blocksWay === true ? trolley([-2650, floor, -150], 'in-the-way') : []),
    ...(bench.controls.isolatorBlocked === true ? blocked(isolatorPlace(layout), floor) : []),
    ...(solvents === true ? cans([layout.tableFront + 330, floor, -layout.halfWidth - 150]) : []),
  ];
}

const board = (from: Vec, to: Vec, i: number, grain: 'x' | 'y' = 'x'): Piece => ({
  surface: 'timber',
  colour: SHADES[i % SHADES.length] as string,
  grain,
  solid: box(from, to, 1.5),
});

/** Arms on posts along the right wall, boards lying on each. */
function rack(floor: number): Piece[] {
  const z = ROOM.z1;
  const random = seededRandom(4);
  const levels = [420, 850, 1280, 1710];
  return [
    ...boxes('enamel', COLOURS.machineDark, [
      ...[1750, 2500, 3250].flatMap((x) => [
        [x, floor, z - 70, x + 70, floor + 2000, z] as const,
        ...levels.map((y) => [x, floor + y - 40, z - 460, x + 70, floor + y, z] as const),
      ]),
    ]),
    ...levels.flatMap((y, level) =>
      Array.from({ length: 5 }, (_, i) => {
        const thick = 26 + random() * 26;
        const at = z - 450 + i * 76;
        const low = floor + y;
        return board(
          [1600 + random() * 150, low, at],
          [3250 + random() * 280, low + thick, at + 70],
          i + level,
        );
      }),
    ),
  ];
}

/** A pile on bearers with sticks between the layers. */
function pile(floor: number): Piece[] {
  const z = ROOM.z1;
  const random = seededRandom(6);
  return [
    ...[1700, 2400, 3100].map((x) => board([x, floor, z - 900], [x + 90, floor + 90, z - 60], 2)),
    ...[0, 1, 2, 3, 4, 5].flatMap((layer) => {
      const y = floor + 90 + layer * 62;
      return [
        ...[0, 1, 2, 3].map((i) =>
          board(
            [1560 + random() * 90, y, z - 890 + i * 205],
            [3330 + random() * 120, y + 42, z - 700 + i * 205],
            i + layer,
          ),
        ),
        ...[1720, 2420, 3120].map((x) => board([x, y + 42, z - 900], [x + 30, y + 62, z - 60], 1)),
      ];
    }),
  ];
}

/** Boards and a sheet lean by the far wall, with nothing to hold them. */
function leaning(floor: number): Piece[] {
  const random = seededRandom(9);
  const leant = (
    length: number,
    width: number,
    thick: number,
    lean: number,
    z: number,
    i: number,
  ) => ({
    ...board([-thick, 0, 0], [0, length, width], i, 'y'),
    solid: movedSolid(box([-thick, 0, 0], [0, length, width], 1.5), turnAbout('z', -lean), [
      ROOM.x1 - 30 - length * Math.sin(lean),
      floor + 4,
      z,
    ]),
  });
  return [
    ...Array.from({ length: 8 }, (_, i) =>
      leant(
        1700 + random() * 750,
        110 + random() * 120,
        24 + random() * 22,
        0.13 + random() * 0.09,
        100 + i * 150,
        i,
      ),
    ),
    leant(1900, 1150, 18, 0.3, 1280, 3),
  ];
}

const TEETH = 30;
const bladeOf = (at: Vec, radius: number, plane: 'side' | 'plan'): Piece => ({
  surface: 'steel',
  colour: COLOURS.bladeSteel,
  solid: movedSolid(
    prism({
      plane,
      outline: Array.from({ length: TEETH * 2 }, (_, i) => {
        const turn = (Math.floor(i / 2) + (i % 2) * 0.55) * ((2 * Math.PI) / TEETH);
        const reach = radius * (i % 2 === 0 ? 1 : 0.91);
        return { x: reach * Math.cos(turn), y: reach * Math.sin(turn) };
      }),
      holes: [circle(0, 0, 15, 12)],
      from: 0,
      to: 3,
    }),
    (v) => v,
    at,
  ),
});

/** x of the left end of the board for blades, on the right wall by the door. */
const RACK_X = -2950;

function panel(floor: number): Piece[] {
  const [y, z] = [floor + 1150, ROOM.z1];
  return boxes('timber', '#d3c19c', [
    [RACK_X, y, z - 20, RACK_X + 1500, y + 900, z],
    [RACK_X, y - 30, z - 330, RACK_X + 1500, y, z],
  ]);
}

/** Each blade by itself on a peg, a cover over its teeth, its riving knife under it. */
function bladeRack(floor: number): Piece[] {
  const [y, z] = [floor + 1150, ROOM.z1 - 54];
  return [
    ...panel(floor),
    ...[0, 1, 2].flatMap((i): Piece[] => {
      const x = RACK_X + 260 + i * 490;
      const radius = 205 - i * 25;
      return [
        bladeOf([x, y + 600, z], radius, 'side'),
        {
          surface: 'enamel',
          colour: '#4b565c',
          solid: prism({
            plane: 'side',
            outline: Array.from({ length: 20 }, (_, k) => {
              const turn = Math.PI + (k * Math.PI) / 19;
              return {
                x: x + (radius + 12) * Math.cos(turn),
                y: y + 600 + (radius + 12) * Math.sin(turn),
              };
            }),
            from: z - 6,
            to: z + 10,
          }),
        },
        {
          surface: 'steel',
          colour: COLOURS.blackSteel,
          solid: bar([x, y + 600, z - 24], [x, y + 600, z + 40], 13, 10),
        },
        {
          surface: 'steel',
          colour: COLOURS.knifeSteel,
          solid: prism({
            plane: 'side',
            outline: knifeOutline(x - 90, y + 70, radius),
            from: z,
            to: z + 3,
          }),
        },
      ];
    }),
  ];
}

/** A riving knife hung by its slot: a hook with a hollow edge. */
const knifeOutline = (x: number, y: number, radius: number) => [
  ...Array.from({ length: 9 }, (_, i) => {
    const turn = 0.15 + i * 0.1;
    return { x: x + radius * Math.cos(turn) - radius * 0.4, y: y + radius * Math.sin(turn) };
  }),
  { x: x + radius * 0.62, y: y + radius * 0.92 },
  { x: x + radius * 0.78, y: y + radius * 0.5 },
  { x: x + radius * 0.8, y },
];

/** Blades on a shelf, teeth against teeth, and one on a nail with another behind it. */
function looseBlades(floor: number): Piece[] {
  const [y, z] = [floor + 1150, ROOM.z1 - 40];
  return [
    ...panel(floor),
    ...[0, 1, 2].map((i) =>
      bladeOf([RACK_X + 300 + i * 190, y + 4 + i * 5, z - 130 - (i % 2) * 30], 175, 'plan'),
    ),
    bladeOf([RACK_X + 1100, y + 520, z], 200, 'side'),
    bladeOf([RACK_X + 1040, y + 470, z - 8], 175, 'side'),
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: bar([RACK_X + 1096, y + 526, z - 20], [RACK_X + 1096, y + 532, z + 60], 4, 6),
    },
  ];
}

/** A flat trolley piled up: with boards across the way to the bench, or pushed up to the isolator. */
function trolley([x, y, z]: Vec, load: 'in-the-way' | 'low'): Piece[] {
  const wheel = (u: number, v: number): Piece => ({
    surface: 'enamel',
    colour: COLOURS.rubber,
    solid: turned(
      [x + u, y + 70, z + v],
      [0, 0, 1],
      [
        [-18, 0],
        [-18, 70],
        [18, 70],
        [18, 0],
      ],
      { segments: 16 },
    ),
  });
  const high = load === 'in-the-way' ? 6 : 3;
  return [
    ...[-330, 330].flatMap((u) => [-190, 190].map((v) => wheel(u, v))),
    ...boxes('enamel', COLOURS.machineDark, [
      [x - 450, y + 140, z - 260, x + 450, y + 180, z + 260],
      [x - 450, y + 180, z - 230, x - 420, y + (load === 'low' ? 420 : 980), z - 200],
      [x - 450, y + 180, z + 200, x - 420, y + (load === 'low' ? 420 : 980), z + 230],
      [
        x - 450,
        y + (load === 'low' ? 390 : 950),
        z - 230,
        x - 420,
        y + (load === 'low' ? 420 : 980),
        z + 230,
      ],
    ]),
    ...Array.from({ length: high * 3 }, (_, i) => {
      const layer = Math.floor(i / 3);
      const at = z - 240 + (i % 3) * 165;
      return board(
        [x - 400 - (i % 4) * 30, y + 180 + layer * 45, at],
        [x + 560 + ((i * 7) % 5) * 60, y + 222 + layer * 45, at + 150],
        i,
      );
    }),
    ...(load === 'in-the-way'
      ? boxes(
          'timber',
          '#b39a72',
          [
            [x - 200, y, z + 330, x + 260, y + 420, z + 760],
            [x - 120, y + 420, z + 380, x + 200, y + 700, z + 700],
          ],
          4,
        )
      : []),
  ];
}

/** A trolley before the isolator and two boards leant across it. */
function blocked([x, , z]: Vec, floor: number): Piece[] {
  const leant = (u: number, length: number, i: number): Piece => ({
    ...board([0, 0, 0], [60, length, 24], i, 'y'),
    solid: movedSolid(box([-70, 0, -24], [70, length, 0], 1.5), turnAbout('x', 0.3), [
      x + u,
      floor + 4,
      z - 470,
    ]),
  });
  return [...trolley([x + 90, floor, z - 640], 'low'), leant(-40, 1000, 1), leant(120, 1060, 3)];
}

/** Solvent and finish: two tins and a can with a spout, and the rag that was wiped with. */
function cans([x, y, z]: Vec): Piece[] {
  const tin = (u: number, v: number, radius: number, high: number, colour: string): Piece => ({
    surface: 'enamel',
    colour,
    solid: turned(
      [x + u, y, z + v],
      [0, 1, 0],
      [
        [0, 0],
        [0, radius],
        [high, radius],
        [high + 8, radius + 3],
        [high + 8, radius - 8],
        [high + 2, 0],
      ],
      { segments: 22 },
    ),
  });
  return [
    tin(0, 0, 95, 250, '#c3c7c9'),
    tin(220, -70, 80, 180, '#8a97a0'),
    ...boxes('enamel', '#6f7c68', [[x + 330, y, z - 60, x + 560, y + 300, z + 80]], 18),
    {
      surface: 'enamel',
      colour: '#3a4036',
      solid: bar([x + 510, y + 300, z + 10], [x + 540, y + 390, z + 10], 24, 10),
    },
    ...boxes(
      'enamel',
      '#efeadb',
      [
        [x + 352, y + 90, z - 64, x + 538, y + 220, z - 60],
        [x - 60, y + 70, z - 97, x + 60, y + 180, z - 92],
      ],
      1,
    ),
    {
      surface: 'enamel',
      colour: '#4c4f4c',
      solid: bar([x + 380, y + 300, z + 10], [x + 470, y + 330, z + 10], 14, 8),
    },
    ...boxes('wall', '#8e4d45', [[x + 90, y, z + 90, x + 250, y + 26, z + 190]], 12),
  ];
}
