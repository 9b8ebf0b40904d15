import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** What is wrong with the table's top, and what lies on it beside the blade. */
export function tableStatePieces(bench: Bench): Piece[] {
  return [
    ...(bench.table.sound ? [] : damage(bench)),
    ...(bench.table.stained === true ? [stain(bench)] : []),
    ...(bench.table.offcuts === true ? offcuts(bench) : []),
  ];
}

const mark = (solid: Solid, colour: string): Piece => ({
  surface: 'mark',
  colour,
  solid,
  mesh: 'table-damage',
});

/** The ring a wet tin left, dry and flat, on the free side. */
function stain(bench: Bench): Piece {
  const z = -layoutOf(bench).mouth.half - 50;
  const ring = { outline: circle(z, -190, 40, 40), holes: [circle(z, -189, 33, 40)] };
  const solid = prism({ plane: 'plan', from: 0, to: 0.04, ...ring });
  const alphas = Array.from({ length: solid.positions.length / 3 }, () => 0.5);
  return { surface: 'stain', colour: '#2b2019', solid, alphas, mesh: 'table-stain' };
}

/** A crack in the casting from a corner of the mouth to the left edge, and dents where things were dropped. */
function damage(bench: Bench): Piece[] {
  const { mouth, halfWidth } = layoutOf(bench);
  const random = seededRandom(47);
  const steps = 14;
  const from: Vec = [mouth.from + 46, 0.03, -mouth.half + 1];
  const line = Array.from({ length: steps + 1 }, (_, i) => {
    const share = i / steps;
    const waver = i === 0 || i === steps ? 0 : (random() - 0.5) * 14;
    return { x: from[2] - (halfWidth - mouth.half) * share, y: from[0] + 70 * share + waver };
  });
  const wide = (i: number): number => 1.5 - (0.9 * i) / steps;
  // points of a plan outline are (z, x)
  const outline = [
    ...line.map(({ x, y }, i) => ({ x, y: y + wide(i) })),
    ...line.map(({ x, y }, i) => ({ x, y: y - wide(i) })).toReversed(),
  ];
  const flat = { plane: 'plan', from: 0, to: 0.05 } as const;
  const dents = [
    [-mouth.half - 60, -90, 9],
    [-mouth.half - 34, 40, 6],
    [-mouth.half - 88, 120, 7],
    [mouth.half + 40, 60, 8],
  ] as const;
  return [
    mark(prism({ ...flat, outline }), '#17181a'),
    ...dents.flatMap(([z, x, radius]) => [
      mark(prism({ ...flat, outline: circle(z, x, radius, 14) }), '#6b6f72'),
      mark(
        prism({ ...flat, to: 0.08, outline: circle(z - 1, x - 1, radius * 0.6, 12) }),
        '#3c3f42',
      ),
    ]),
  ];
}

/** Splinters and thin offcuts between the mouth and the free side, where a hand would be put to clear them. */
function offcuts(bench: Bench): Piece[] {
  const { mouth } = layoutOf(bench);
  const random = seededRandom(59);
  return Array.from({ length: 9 }, (_, i): Piece => {
    const [long, broad, thick] = [28 + 70 * random(), 4 + 9 * random(), 3 + 8 * random()];
    const solid = box([-long / 2, 0, -broad / 2], [long / 2, thick, broad / 2], 0.4);
    const turn = turnAbout('y', (random() - 0.5) * 2.2);
    const at: Vec = [-170 + i * 38, 0.05, -bench.blade.kerf / 2 - 16 - random() * mouth.half * 1.4];
    return {
      surface: 'timber',
      colour: COLOURS.dust,
      solid: movedSolid(solid, turn, at),
      mesh: 'table-offcuts',
    };
  });
}
