import type { Bench } from '../../bench/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { addTriangle, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';

/** A bare lamp beyond the blade at the height of the eyes, its glow, and its light thrown back by the table. */
export function glarePieces(bench: Bench): Piece[] {
  if (bench.place.glare !== true) return [];
  const { floor, outfeed } = layoutOf(bench);
  const at: Vec = [Math.min(outfeed + 700, 2500), 560, 120];
  return [
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: bar([at[0] + 60, floor, at[2]], [at[0] + 60, 470, at[2]], 16, 10),
    },
    ...[0, 1, 2].map((i): Piece => {
      const turn = (i * 2 * Math.PI) / 3;
      return {
        surface: 'steel',
        colour: COLOURS.blackSteel,
        solid: bar(
          [at[0] + 60, floor + 260, at[2]],
          [at[0] + 60 + 330 * Math.cos(turn), floor, at[2] + 330 * Math.sin(turn)],
          11,
          8,
        ),
      };
    }),
    {
      surface: 'mark',
      colour: '#ffffff',
      solid: bar([at[0] - 12, at[1], at[2]], [at[0] + 40, at[1], at[2]], 105, 28),
    },
    halo(
      [at[0] - 20, at[1], at[2]],
      (turn, reach) => [0, reach * Math.cos(turn), -reach * Math.sin(turn)],
      430,
      0.75,
    ),
    halo(
      [outfeed * 0.55, 0.8, at[2] * 0.5],
      (turn, reach) => [reach * 1.9 * Math.cos(turn), 0, -reach * 0.55 * Math.sin(turn)],
      320,
      0.8,
    ),
  ];
}

/** A glow that fades outward. */
function halo(
  at: Vec,
  out: (turn: number, reach: number) => Vec,
  radius: number,
  strength: number,
): Piece {
  const solid: Solid = emptySolid();
  const alphas: number[] = [];
  const rings = [0, 0.3, 0.6, 1];
  const steps = 28;
  const fade = (share: number): number => strength * (1 - share) ** 2;
  const point = (ring: number, step: number): Vec => {
    const [x, y, z] = out((step * 2 * Math.PI) / steps, radius * (rings[ring] as number));
    return [at[0] + x, at[1] + y, at[2] + z];
  };
  for (let ring = 0; ring + 1 < rings.length; ring++) {
    const [inner, outer] = [fade(rings[ring] as number), fade(rings[ring + 1] as number)];
    for (let step = 0; step < steps; step++) {
      addTriangle(solid, [point(ring, step), point(ring + 1, step), point(ring + 1, step + 1)]);
      addTriangle(solid, [point(ring, step), point(ring + 1, step + 1), point(ring, step + 1)]);
      alphas.push(inner, outer, outer, inner, outer, inner);
    }
  }
  // lit from above whichever way it faces: a glow has no shaded side
  solid.normals.fill(0);
  for (let i = 1; i < solid.normals.length; i += 3) solid.normals[i] = 1;
  return { surface: 'stain', colour: '#ffffff', solid, alphas };
}
