import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addTriangle, emptySolid, movedSolid, turnAbout } from '../shape/solid.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { latticeNoise } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** What a foot meets round the bench: a film of dust, a wet floor, or a broken and stepped one. */
export const floorState = (bench: Bench): Piece[] => [
  ...(bench.place.dusty === true ? [film(bench)] : []),
  ...underfoot(bench),
];

/** Fine dust where it settles round the bench, thinning out to nothing. */
function film(bench: Bench): Piece {
  const { floor, tableFront, halfWidth } = layoutOf(bench);
  const solid = emptySolid();
  const alphas: number[] = [];
  for (const [x, z, radius, seed] of [
    [tableFront - 500, -60, 1300, 11],
    [0, -halfWidth - 500, 1100, 12],
    [200, halfWidth + 500, 1000, 13],
  ] as const) {
    const edge = blot(x, z, radius, seed);
    edge.forEach((a, i) => {
      const b = edge[(i + 1) % edge.length] as Point;
      const y = floor + 0.6;
      addTriangle(solid, [
        [x, y, z],
        [a.y, y, a.x],
        [b.y, y, b.x],
      ]);
      alphas.push(0.75, 0, 0);
    });
  }
  return { surface: 'stain', colour: COLOURS.dust, solid, alphas, mesh: 'floor-dust' };
}

function underfoot(bench: Bench): Piece[] {
  const { floor, tableFront, halfWidth } = layoutOf(bench);
  if (bench.place.floor === 'slippery') {
    return [
      puddle(tableFront - 330, -260, 420, floor, 1),
      puddle(tableFront - 800, 180, 260, floor, 2),
      puddle(tableFront + 260, -halfWidth - 330, 300, floor, 3),
      puddle(700, halfWidth + 420, 300, floor, 4),
    ];
  }
  return bench.place.floor === 'uneven' ? broken(tableFront - 380, floor) : [];
}

/** An irregular edge round a point, (z, x). */
function blot(x: number, z: number, radius: number, seed: number, steps = 36): Point[] {
  const rough = latticeNoise(9, 1, seed + 50);
  return Array.from({ length: steps }, (_, i) => {
    const turn = (i * 2 * Math.PI) / steps;
    const reach = radius * (0.55 + 0.6 * rough(i / steps, 0));
    return { x: z + reach * Math.sin(turn), y: x + reach * 1.25 * Math.cos(turn) };
  });
}

/** Water or oil: it mirrors the windows. */
const puddle = (x: number, z: number, radius: number, floor: number, seed: number): Piece => ({
  surface: 'steel',
  colour: '#7d817f',
  solid: prism({ plane: 'plan', outline: blot(x, z, radius, seed), from: floor, to: floor + 1.4 }),
});

/** A slab that has sunk to a step, a hole beside it, and cracks that run from both. */
function broken(x: number, floor: number): Piece[] {
  const crack = (points: readonly (readonly [number, number])[]): Piece[] =>
    points.slice(1).map(([u, v], i) => {
      const [u0, v0] = points[i] as readonly [number, number];
      return {
        surface: 'mark' as const,
        colour: '#4a4742',
        solid: bar([x + u0, floor, v0], [x + u, floor, v], 4.5, 6),
      };
    });
  const hole = blot(x - 120, 120, 170, 7, 22);
  const rim = hole.map((p, i) => ({
    x: 120 + (p.x - 120) * (1.22 + 0.1 * (i % 3)),
    y: x - 120 + (p.y - x + 120) * (1.22 + 0.08 * (i % 2)),
  }));
  return [
    {
      surface: 'wall',
      colour: '#8d8a82',
      solid: prism({ plane: 'plan', outline: rim, from: floor, to: floor + 1.5 }),
    },
    {
      surface: 'wall',
      colour: '#3b3935',
      solid: prism({ plane: 'plan', outline: hole, from: floor + 1, to: floor + 3 }),
    },
    {
      surface: 'floor',
      colour: '#98948c',
      solid: movedSolid(box([-340, -30, -250], [340, 24, 250], 5), turnAbout('z', 0.035), [
        x,
        floor + 4,
        -330,
      ]),
    },
    ...crack([
      [-120, 260],
      [-60, 420],
      [-150, 610],
      [-40, 900],
    ]),
    ...crack([
      [-260, 60],
      [-460, 120],
      [-610, 40],
      [-800, 90],
    ]),
    ...crack([
      [20, 180],
      [190, 330],
      [230, 520],
    ]),
    // stones broken out of it
    ...[0, 1, 2, 3].map(
      (i): Piece => ({
        surface: 'enamel',
        colour: '#8f8b83',
        solid: movedSolid(
          box([0, 0, 0], [34 + i * 9, 22 + i * 4, 30], 7),
          turnAbout('y', i * 1.3),
          [x - 90 + i * 80, floor, 330 - i * 55],
        ),
      }),
    ),
  ];
}
