import type { Piece } from '../shape/pieces.ts';
import { limb, type Oval, skin, stacked } from '../shape/skin.ts';
import { add, type Solid, scale, subtract, unit, type Vec } from '../shape/solid.ts';
import { sweep } from '../shape/sweep.ts';
import { turned } from '../shape/turned.ts';
import type { Dress } from './stance.ts';

/* What people wear, in the frame of a figure that faces +x. Words we do not know are drawn as sound. */

const paint = (solid: Solid, colour: string): Piece => ({ surface: 'wall', colour, solid });
const HAIR = '#5b4a3c';
const DARK = '#24272a';
const STEEL = '#dfe2e4';

/** Points on a level oval round the head, from the right ear by the front to the left. */
const band = (
  y: number,
  x: number,
  depth: number,
  breadth: number,
  from: number,
  to: number,
): Vec[] =>
  Array.from({ length: 17 }, (_, i): Vec => {
    const turn = from + ((to - from) * i) / 16;
    return [x + depth * Math.cos(turn), y, breadth * Math.sin(turn)];
  });

const HALF = Math.PI / 2;

export function dressHead(dress: Dress): Piece[] {
  return [...hair(dress), ...eyes(dress), ...ears(dress)];
}

function hair({ hair: worn }: Dress): Piece[] {
  const cap: Oval[] = [
    [1632, -22, 84, 79],
    [1690, -8, 97, 80],
    [1722, -4, 87, 70],
    [1748, -3, 52, 42],
    [1757, -2, 16, 14],
  ];
  const pieces = [paint(stacked(cap), HAIR)];
  if (worn === 'tied') {
    pieces.push(
      paint(
        limb([
          [[-96, 1668, 0], 36],
          [[-116, 1664, 0], 34],
        ]),
        HAIR,
      ),
    );
    pieces.push(
      paint(
        turned(
          [-84, 1668, 0],
          [-1, 0, 0],
          [
            [0, 22],
            [0, 30],
            [10, 30],
            [10, 22],
          ],
        ),
        DARK,
      ),
    );
  }
  if (worn === 'loose') {
    const fall: Oval[] = [
      [1268, -92, 20, 92],
      [1300, -88, 34, 112],
      [1430, -74, 46, 112],
      [1540, -54, 62, 98],
      [1640, -34, 72, 88],
      [1700, -16, 80, 76],
    ];
    pieces.push(paint(stacked(fall), HAIR));
    for (const side of [-1, 1]) {
      pieces.push(
        paint(
          limb([
            [[10, 1660, side * 74], 20],
            [[6, 1520, side * 94], 24],
            [[52, 1330, side * 112], 16],
          ]),
          HAIR,
        ),
      );
    }
  }
  return pieces;
}

function eyes({ eyes: worn }: Dress): Piece[] {
  if (worn === 'none') return [];
  if (worn === 'face-shield') {
    const edge = (y: number, out: number) =>
      band(y, 20, 104 + out, 100 + out, -HALF * 0.86, HALF * 0.86);
    const loops = edge(1480, 2).map((low, i): Vec[] => {
      const high = edge(1668, 6)[i] as Vec;
      const inner = (v: Vec): Vec => [v[0] - 2, v[1], v[2] * 0.985];
      return [low, high, inner(high), inner(low)];
    });
    return [
      {
        surface: 'stain',
        colour: '#c3d4da',
        solid: skin(loops),
        alphas: Array.from({ length: (loops.length - 1) * 24 }, () => 0.5),
      },
      paint(sweep(band(1672, 4, 112, 90, -Math.PI, Math.PI), 11, 8), DARK),
      paint(sweep(edge(1482, 3), 3.5, 6), DARK),
    ];
  }
  const lens = (side: number): Piece =>
    paint(
      limb(
        [
          [[97, 1640, side * 18], 16],
          [[86, 1640, side * 46], 15],
        ],
        10,
      ),
      '#2f3a42',
    );
  return [
    lens(-1),
    lens(1),
    paint(sweep(band(1646, 8, 99, 80, -HALF * 1.25, HALF * 1.25), 4, 6), DARK),
  ];
}

function ears({ ears: worn }: Dress): Piece[] {
  return [-1, 1].flatMap((side) => {
    const ear = paint(
      limb(
        [
          [[-2, 1606, side * 74], 11],
          [[-8, 1640, side * 78], 15],
        ],
        8,
      ),
      '#b3a694',
    );
    if (worn === 'none') return [ear];
    if (worn === 'plugs') {
      return [
        ear,
        paint(
          limb(
            [
              [[4, 1618, side * 80], 9],
              [[4, 1618, side * 98], 11],
            ],
            10,
          ),
          '#3f7f8c',
        ),
        paint(
          sweep(
            [
              [4, 1618, side * 98],
              [-30, 1530, side * 96],
              [-70, 1460, side * 50],
              [-80, 1446, 0],
            ],
            3,
            6,
          ),
          '#3f7f8c',
        ),
      ];
    }
    const arch = Array.from({ length: 9 }, (_, i): Vec => {
      const turn = (i / 8) * HALF;
      return [-4, 1640 + 126 * Math.sin(turn), side * 92 * Math.cos(turn)];
    });
    return [
      paint(
        turned(
          [-2, 1620, side * 66],
          [0, 0, side],
          [
            [0, 0],
            [0, 44],
            [10, 47],
            [34, 42],
            [42, 30],
            [44, 0],
          ],
          {
            segments: 20,
          },
        ),
        '#2d3a44',
      ),
      paint(sweep(arch, 6, 8), DARK),
    ];
  });
}

/** A chain that hangs on the chest. */
export function dressNeck({ jewellery }: Dress): Piece[] {
  if (jewellery !== true) return [];
  const chain = Array.from({ length: 19 }, (_, i): Vec => {
    const turn = ((i / 18) * 2 - 1) * Math.PI * 0.75;
    return [
      40 + 84 * Math.cos(turn),
      1440 - 92 * Math.max(0, Math.cos(turn)) ** 1.4,
      74 * Math.sin(turn),
    ];
  });
  return [
    paint(sweep(chain, 5, 8), '#e2c26a'),
    paint(
      limb(
        [
          [[128, 1340, 0], 12],
          [[130, 1322, 0], 12],
        ],
        10,
      ),
      '#e2c26a',
    ),
  ];
}

/** A watch on the left wrist and a ring. */
export function dressWrist({ jewellery }: Dress, elbow: Vec, wrist: Vec): Piece[] {
  if (jewellery !== true) return [];
  const along = unit(subtract(wrist, elbow));
  const ring = (at: number, radius: number, wide: number, colour: string): Piece =>
    paint(
      turned(
        add(wrist, scale(along, at)),
        along,
        [
          [0, radius - 6],
          [0, radius],
          [wide, radius],
          [wide, radius - 6],
        ],
        {
          segments: 18,
        },
      ),
      colour,
    );
  return [
    ring(-22, 38, 22, STEEL),
    paint(
      limb(
        [
          [add(add(wrist, scale(along, -11)), [0, 30, 0]), 19],
          [add(add(wrist, scale(along, -11)), [0, 38, 0]), 18],
        ],
        12,
      ),
      '#2a2c2e',
    ),
    ring(74, 16, 8, '#e2c26a'),
  ];
}

/** The end of a sleeve: a close cuff, a roll above the elbow, or cloth that hangs wide at the wrist. */
export function sleeveOf({ sleeves }: Dress, colour: string, elbow: Vec, wrist: Vec): Piece[] {
  const along = unit(subtract(wrist, elbow));
  const at = (back: number, drop = 0): Vec => add(add(wrist, scale(along, -back)), [0, -drop, 0]);
  if (sleeves === 'rolled') {
    const out = unit(subtract(elbow, wrist));
    return [
      paint(
        limb([
          [add(elbow, scale(out, 4)), 50],
          [add(elbow, scale(out, 44)), 54],
        ]),
        colour,
      ),
    ];
  }
  if (sleeves === 'loose') {
    return [
      paint(
        limb(
          [
            [elbow, 46],
            [at(110, 16), 62],
            [at(20, 44), 82],
            [at(-14, 62), 74],
          ],
          16,
        ),
        colour,
      ),
      paint(
        limb(
          [
            [at(-12, 40), 60],
            [at(-26, 92), 34],
          ],
          12,
        ),
        colour,
      ),
    ];
  }
  return [
    paint(
      limb([
        [at(34), 36],
        [at(10), 35],
      ]),
      '#323c43',
    ),
  ];
}
