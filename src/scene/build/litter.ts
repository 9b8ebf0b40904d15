import { Color } from 'three';
import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import {
  addTriangle,
  emptySolid,
  movedSolid,
  type Solid,
  turnAbout,
  type Vec,
} from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { latticeNoise, seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** Sawdust in heaps and offcuts underfoot, where a person would slip or trip. */
export function litterPieces(bench: Bench): Piece[] {
  if (!bench.place.litter) return [];
  const layout = layoutOf(bench);
  const { floor, tableFront, halfWidth } = layout;
  const heaps: Piece[] = [
    heap([tableFront - 260, floor, -260], 340, 60, 1),
    heap([tableFront - 520, floor, 240], 240, 34, 2),
    heap([120, floor, 60], 560, 120, 3),
    heap([-330, 0, -halfWidth * 0.5], 110, 13, 4),
    heap([120, 0, -104], 58, 9, 5),
  ];
  return [...heaps, ...offcuts(floor, tableFront, halfWidth)];
}

/** A mound of sawdust, its sides loose and its edge scattered with chips. */
export function heap(at: Vec, radius: number, height: number, seed: number): Piece {
  const rough = latticeNoise(17, 17, seed + 30);
  const random = seededRandom(seed * 131);
  const solid = emptySolid();
  const rings = 9;
  const steps = 40;
  const point = (ring: number, step: number): Vec => {
    const turn = (step % steps) / steps;
    const share = ring / rings;
    const reach = radius * share * (0.62 + 0.62 * rough(turn, 0.3));
    const lumps = 0.7 + 0.6 * rough(turn + share * 0.37, share);
    const up = ring === rings ? 0 : height * (1 - share) ** 1.2 * lumps;
    const angle = turn * 2 * Math.PI;
    return [at[0] + reach * Math.cos(angle), at[1] + up + 0.4, at[2] + reach * Math.sin(angle)];
  };
  for (let ring = 0; ring < rings; ring++) {
    for (let step = 0; step < steps; step++) {
      const corner = (r: number, s: number) => point(ring + r, step + s);
      addTriangle(solid, [corner(0, 0), corner(1, 1), corner(1, 0)]);
      addTriangle(solid, [corner(0, 0), corner(0, 1), corner(1, 1)]);
    }
  }
  for (let i = 0; i < 70; i++) {
    const angle = random() * 2 * Math.PI;
    const reach = radius * (0.55 + 0.75 * random());
    const size = 2 + random() * Math.min(9, radius * 0.03);
    const chip = box([-size, 0, -size * 0.4], [size, size * 0.3, size * 0.4]);
    const spot: Vec = [at[0] + reach * Math.cos(angle), at[1], at[2] + reach * Math.sin(angle)];
    const { positions, normals } = movedSolid(chip, turnAbout('y', random() * 6.3), spot);
    solid.positions.push(...positions);
    solid.normals.push(...normals);
  }
  const tint = new Color(COLOURS.dust);
  const shades: number[] = [];
  for (let i = 0; i < solid.positions.length / 9; i++) {
    const shade = 0.8 + 0.35 * random();
    for (let k = 0; k < 3; k++) shades.push(tint.r * shade, tint.g * shade, tint.b * shade);
  }
  return { surface: 'floor', colour: COLOURS.dust, solid, shades };
}

function offcuts(floor: number, front: number, halfWidth: number): Piece[] {
  const random = seededRandom(17);
  const spots: readonly Vec[] = [
    [front - 420, floor, -420],
    [front - 610, floor, -60],
    [front - 240, floor, 380],
    [front + 90, floor, -halfWidth - 240],
    [front - 840, floor, 190],
    [front - 350, floor, -170],
  ];
  const cut = (spot: Vec): Solid => {
    const block = box([0, 0, 0], [120 + random() * 260, 22 + random() * 26, 40 + random() * 60], 1);
    return movedSolid(block, turnAbout('y', random() * 6.3), spot);
  };
  return spots.map(cut).map((solid, i) => ({
    surface: 'timber' as const,
    colour: i % 2 === 0 ? '#dcc08e' : '#c9a773',
    solid,
  }));
}
