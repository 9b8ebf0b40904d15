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
    heap([tableFront - 260, floor, -260], 420, 46, 1),
    heap([tableFront - 520, floor, 240], 300, 26, 2),
    heap([120, floor, 60], 560, 120, 3),
    heap([-330, 0, -halfWidth * 0.5], 120, 9, 4),
    heap([90, 0, -96], 70, 7, 5),
  ];
  return [...heaps, ...offcuts(floor, tableFront, halfWidth)];
}

/** A low mound with a soft uneven edge. */
function heap(at: Vec, radius: number, height: number, seed: number): Piece {
  const rough = latticeNoise(11, 11, seed + 30);
  const solid = emptySolid();
  const rings = 7;
  const steps = 30;
  const point = (ring: number, step: number): Vec => {
    const angle = ((step % steps) * 2 * Math.PI) / steps;
    const share = ring / rings;
    const reach = radius * share * (0.72 + 0.5 * rough((step % steps) / steps, 0.3));
    const up = height * (1 - share ** 1.5) * (0.8 + 0.4 * rough((step % steps) / steps, share));
    return [
      at[0] + reach * Math.cos(angle),
      at[1] + Math.max(0.4, ring === rings ? 0.4 : up),
      at[2] + reach * Math.sin(angle),
    ];
  };
  for (let ring = 0; ring < rings; ring++) {
    for (let step = 0; step < steps; step++) {
      const [a, b, c, d] = [
        point(ring, step),
        point(ring + 1, step),
        point(ring + 1, step + 1),
        point(ring, step + 1),
      ];
      addTriangle(solid, [a, c, b]);
      addTriangle(solid, [a, d, c]);
    }
  }
  return { surface: 'floor', colour: COLOURS.dust, solid, mesh: 'place-dust' };
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
  const onTable = movedSolid(
    box([0, 0, 0], [170, 24, 44], 1),
    turnAbout('y', 0.5),
    [-380, 0, -250],
  );
  return [...spots.map(cut), onTable].map((solid, i) => ({
    surface: 'timber' as const,
    colour: i % 2 === 0 ? '#dcc08e' : '#c9a773',
    solid,
    mesh: 'place-offcuts',
  }));
}
