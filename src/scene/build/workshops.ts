import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { movedSolid, turnAbout, type Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';
import { ROOM, settingOf } from './place.ts';
import { boxes } from './room-fittings.ts';

const PALE = '#d3c19c';
const DARKER = '#b0946c';
const PLY = '#d9bb88';

/** What stands along the walls of a joinery shop, a school workshop, a site hut. */
export function furniturePieces(bench: Bench): Piece[] {
  const { floor } = layoutOf(bench);
  switch (settingOf(bench)) {
    case 'joinery':
      return [
        ...workbench(-1700, ROOM.z0 + 460, floor, 'long'),
        ...toolBoard(-1650, floor),
        ...cramps(500, floor),
        ...noticeBoard(floor),
      ];
    case 'school':
      return [
        ...[-3900, -1900, 100].flatMap((x) => [
          ...workbench(x, ROOM.z0 + 700, floor, 'short'),
          ...stool(x + 330, ROOM.z0 + 1240, floor),
          ...stool(x + 900, ROOM.z0 + 1240, floor),
        ]),
        ...cupboards(floor),
        ...whiteboard(floor),
      ];
    case 'site':
      return [
        ...studs(floor),
        ...trestles(-2600, ROOM.z0 + 500, floor),
        ...chest(floor),
        ...pegs(floor),
        ...reel(floor),
      ];
  }
}

/** A joiner's bench with its vice, its top left clear. */
function workbench(x: number, z: number, floor: number, size: 'long' | 'short'): Piece[] {
  const [long, deep] = size === 'long' ? [1900, 680] : [1250, 620];
  const top = floor + 860;
  const [z0, z1] = [z - deep / 2, z + deep / 2];
  return [
    ...boxes('timber', PALE, [[x, top - 70, z0, x + long, top, z1]], 4),
    ...boxes(
      'timber',
      DARKER,
      [x + 70, x + long - 160].flatMap((leg) => [
        [leg, floor, z0 + 50, leg + 90, top - 70, z0 + 140] as const,
        [leg, floor, z1 - 140, leg + 90, top - 70, z1 - 50] as const,
      ]),
      3,
    ),
    ...boxes('timber', DARKER, [
      [x + 70, floor + 190, z0 + 60, x + long - 70, floor + 220, z1 - 60],
      [x + 120, top - 150, z1, x + 460, top - 20, z1 + 46],
    ]),
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([x + 290, top - 90, z1 - 100], [x + 290, top - 90, z1 + 150], 14, 10),
    },
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([x + 190, top - 90, z1 + 130], [x + 390, top - 90, z1 + 130], 9, 8),
    },
  ];
}

/** Hand tools on a board, each in its place. */
function toolBoard(x: number, floor: number): Piece[] {
  const z = ROOM.z0;
  const y = floor + 1250;
  const handle = (u: number, v: number): Piece => ({
    surface: 'timber',
    colour: DARKER,
    solid: bar([x + u, y + v, z + 50], [x + u, y + v + 120, z + 50], 15, 8),
  });
  const chisels = [120, 200, 280, 360, 440];
  return [
    ...boxes('timber', PALE, [[x, y, z, x + 1700, y + 800, z + 22]]),
    ...chisels.map((u) => handle(u, 520)),
    ...boxes(
      'steel',
      COLOURS.groundSteel,
      chisels.map((u, i) => [
        x + u - 8 - i * 2,
        y + 380,
        z + 46,
        x + u + 8 + i * 2,
        y + 520,
        z + 52,
      ]),
      1,
    ),
    // two hand saws, a square, a rule
    ...boxes('steel', COLOURS.brightSteel, [
      [x + 620, y + 470, z + 40, x + 1180, y + 570, z + 43],
      [x + 620, y + 260, z + 40, x + 1080, y + 340, z + 43],
      [x + 1330, y + 260, z + 40, x + 1370, y + 660, z + 44],
      [x + 1330, y + 620, z + 40, x + 1600, y + 660, z + 44],
      [x + 160, y + 180, z + 40, x + 560, y + 210, z + 43],
    ]),
    ...boxes('timber', DARKER, [
      [x + 1180, y + 450, z + 34, x + 1290, y + 590, z + 56],
      [x + 1080, y + 240, z + 34, x + 1180, y + 360, z + 56],
    ]),
  ];
}

function cramps(x: number, floor: number): Piece[] {
  const z = ROOM.z0;
  return [
    ...boxes('timber', DARKER, [[x, floor + 1900, z, x + 1000, floor + 1990, z + 60]]),
    ...Array.from({ length: 8 }, (_, i) => x + 60 + i * 120).flatMap((u, i) => {
      const low = floor + 760 + (i % 3) * 130;
      return [
        ...boxes('steel', COLOURS.blackSteel, [
          [u - 7, low, z + 70, u + 7, floor + 1960, z + 96],
          [u - 12, floor + 1880, z + 70, u + 12, floor + 1910, z + 190],
          [u - 12, low + 90, z + 70, u + 12, low + 120, z + 190],
        ]),
      ];
    }),
  ];
}

/** Sheets of paper on cork: what they say is for the shop to write. */
function noticeBoard(floor: number): Piece[] {
  const [x, y, z] = [ROOM.x0, floor + 1200, -2300];
  return [
    ...boxes('timber', '#a98a62', [[x, y, z, x + 24, y + 800, z + 1100]]),
    ...boxes('wall', '#eeece4', [
      [x + 24, y + 380, z + 90, x + 27, y + 680, z + 300],
      [x + 24, y + 300, z + 380, x + 27, y + 720, z + 680],
      [x + 24, y + 120, z + 760, x + 27, y + 420, z + 980],
    ]),
  ];
}

function stool(x: number, z: number, floor: number): Piece[] {
  return [
    {
      surface: 'timber',
      colour: PALE,
      solid: turned(
        [x, floor + 560, z],
        [0, 1, 0],
        [
          [0, 0],
          [0, 150],
          [30, 150],
          [34, 140],
          [34, 0],
        ],
        { segments: 16 },
      ),
    },
    ...[0, 1, 2, 3].map((i): Piece => {
      const turn = Math.PI / 4 + (i * Math.PI) / 2;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      return {
        surface: 'steel',
        colour: COLOURS.blackSteel,
        solid: bar(
          [x + c * 170, floor, z + s * 170],
          [x + c * 100, floor + 560, z + s * 100],
          12,
          6,
        ),
      };
    }),
  ];
}

/** A row of low cupboards under the high windows. */
function cupboards(floor: number): Piece[] {
  const z = ROOM.z1;
  return Array.from({ length: 6 }, (_, i) => -2700 + i * 760).flatMap((x) => [
    ...boxes('enamel', '#c3cbc9', [[x, floor + 80, z - 480, x + 740, floor + 900, z]], 3),
    ...boxes('enamel', '#d5dbd8', [
      [x + 14, floor + 100, z - 500, x + 362, floor + 860, z - 480],
      [x + 378, floor + 100, z - 500, x + 726, floor + 860, z - 480],
    ]),
    ...boxes('steel', COLOURS.groundSteel, [
      [x + 330, floor + 600, z - 516, x + 344, floor + 720, z - 500],
      [x + 396, floor + 600, z - 516, x + 410, floor + 720, z - 500],
    ]),
  ]);
}

function whiteboard(floor: number): Piece[] {
  const [x, y, z] = [ROOM.x0, floor + 950, -2600];
  return [
    ...boxes('enamel', '#f3f5f4', [[x, y, z, x + 22, y + 1100, z + 1600]]),
    ...boxes('steel', COLOURS.alloy, [
      [x, y - 30, z - 30, x + 34, y, z + 1630],
      [x, y + 1100, z - 30, x + 34, y + 1130, z + 1630],
      [x, y, z - 30, x + 34, y + 1100, z],
      [x, y, z + 1600, x + 34, y + 1100, z + 1630],
      [x, y - 60, z + 300, x + 90, y - 40, z + 1300],
    ]),
  ];
}

/** The bare frame of a hut: posts and noggings before the ply. */
function studs(floor: number): Piece[] {
  const { x0, x1, z0, z1 } = ROOM;
  const top = floor + 3000;
  const posts: [number, number, number, number, number, number][] = [];
  for (let z = z0 + 20; z < z1; z += 610) posts.push([x1 - 95, floor, z, x1, top, z + 45]);
  for (let x = x0 + 300; x < x1; x += 610) {
    posts.push([x, floor, z0, x + 45, top, z0 + 95], [x, floor, z1 - 95, x + 45, top, z1]);
  }
  posts.push(
    [x1 - 95, floor + 1060, z0, x1, floor + 1105, z1],
    [x0, floor + 1060, z0, x1, floor + 1105, z0 + 95],
    [x0, floor + 1060, z1 - 95, x1, floor + 1105, z1],
    [x0, floor, z0, x1, floor + 45, z0 + 95],
    [x0, floor, z1 - 95, x1, floor + 45, z1],
    [x1 - 95, floor, z0, x1, floor + 45, z1],
  );
  // joints of the sheets that make the floor
  const joints = [-3000, -1780, -560, 660, 1880, 3100].map(
    (x) => [x, floor + 0.2, z0, x + 5, floor + 0.5, z1] as const,
  );
  const across = [-1680, -460, 760, 1980].map(
    (z) => [x0, floor + 0.2, z, x1, floor + 0.5, z + 5] as const,
  );
  return [
    ...boxes('timber', '#cfb283', posts, 0).map((piece) => ({ ...piece, grain: 'y' as const })),
    ...boxes('wall', '#6d5c43', [...joints, ...across], 0),
  ];
}

/** Two trestles with planks across. */
function trestles(x: number, z: number, floor: number): Piece[] {
  const legs = [0, 1500].flatMap((u) =>
    [-1, 1].flatMap((side): Piece[] =>
      [0, 560].map((v) => ({
        surface: 'timber',
        colour: DARKER,
        solid: movedSolid(box([-22, 0, -35], [22, 720, 35], 2), turnAbout('z', side * 0.22), [
          x + u + side * 170,
          floor,
          z + v,
        ]),
      })),
    ),
  );
  return [
    ...legs,
    ...boxes('timber', PALE, [
      [x - 40, floor + 690, z - 60, x + 40, floor + 760, z + 640],
      [x + 1460, floor + 690, z - 60, x + 1540, floor + 760, z + 640],
      [x - 350, floor + 760, z + 20, x + 2000, floor + 800, z + 240],
      [x - 250, floor + 760, z + 280, x + 2100, floor + 800, z + 500],
    ]),
  ];
}

/** A steel chest for the tools, locked at night. */
function chest(floor: number): Piece[] {
  const [x, z] = [1300, ROOM.z0 + 130];
  return [
    ...boxes(
      'enamel',
      '#5c6a70',
      [
        [x, floor + 60, z, x + 1150, floor + 620, z + 560],
        [x - 10, floor + 630, z - 10, x + 1160, floor + 700, z + 570],
      ],
      8,
    ),
    ...boxes('steel', COLOURS.blackSteel, [
      [x + 60, floor, z + 60, x + 160, floor + 60, z + 500],
      [x + 990, floor, z + 60, x + 1090, floor + 60, z + 500],
      [x + 200, floor + 560, z + 560, x + 280, floor + 660, z + 580],
      [x + 870, floor + 560, z + 560, x + 950, floor + 660, z + 580],
    ]),
  ];
}

/** Helmets and a coat on pegs by the door. */
function pegs(floor: number): Piece[] {
  const [x, y] = [ROOM.x0, floor + 1650];
  const helmet = (z: number): Piece => ({
    surface: 'enamel',
    colour: '#dfe1de',
    solid: turned(
      [x + 150, y - 60, z],
      [0, 1, 0],
      [
        [0, 150],
        [8, 152],
        [12, 124],
        [80, 110],
        [130, 66],
        [150, 0],
      ],
      {
        segments: 20,
        smooth: 'profile',
      },
    ),
  });
  return [
    ...boxes('timber', DARKER, [[x, y, -2500, x + 30, y + 90, -1100]]),
    helmet(-2300),
    helmet(-1900),
    ...boxes('enamel', '#59626a', [[x + 30, y - 780, -1600, x + 150, y + 20, -1240]], 50),
  ];
}

/** A drum of cable. */
function reel(floor: number): Piece[] {
  const at: Vec = [2600, floor + 210, ROOM.z0 + 400];
  return [
    {
      surface: 'enamel',
      colour: COLOURS.bakelite,
      solid: turned(
        at,
        [0, 0, 1],
        [
          [0, 0],
          [0, 200],
          [14, 200],
          [14, 120],
          [180, 120],
          [180, 200],
          [194, 200],
          [194, 0],
        ],
        {
          segments: 24,
        },
      ),
    },
    ...boxes('timber', PLY, [[2380, floor, ROOM.z0 + 380, 2820, floor + 14, ROOM.z0 + 620]]),
  ];
}
