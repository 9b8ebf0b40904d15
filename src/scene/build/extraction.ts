import type { Bench } from '../../bench/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { stacked } from '../shape/skin.ts';
import { add, movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { extractor } from './extractor.ts';
import { type Layout, layoutOf } from './layout.ts';
import { heap } from './litter.ts';
import { ROOM } from './place.ts';

const HOSE = 52;

/** What takes the dust away: the extractor by the left wall and its hoses to the bench. */
export function extractionPieces(bench: Bench): Piece[] {
  const { extraction } = bench;
  const layout = layoutOf(bench);
  if (extraction === undefined || extraction.kind === 'none') return [];
  const unit: Vec = [ROOM.x1 - 620, layout.floor, 980];
  return [
    ...extractor(unit, extraction),
    ...hose(lowerPath(bench, layout, unit), extraction.hose, layout.floor),
    ...(bench.underGuard === 'extraction-hood' ? [] : hopper(bench, layout)),
    ...(extraction.kind === 'above-and-below' ? upperHose(bench, layout, unit) : []),
  ];
}

/** Where the outlet under the blade ends, tilted with the arbor. */
function outletOf(bench: Bench, { tipRadius, depth, tilt }: Layout): Vec {
  const low: Vec = [-tipRadius * 0.35, -depth - tipRadius - 62, 0];
  return bench.underGuard === 'extraction-hood'
    ? turnAbout('x', tilt)(low)
    : [low[0], low[1] - 70, 0];
}

/** mm: where the hose lies straight along the floor, from and to, x and z. */
const RUN = { from: [260, 40], to: [2300, 260] } as const;

/** From the outlet to the floor, and along it to the extractor. A loose hose has slipped off and dropped. */
function lowerPath(bench: Bench, layout: Layout, unit: Vec): Vec[] {
  const { floor } = layout;
  const at = outletOf(bench, layout);
  const on = floor + HOSE + 6;
  const start: Vec[] =
    bench.extraction?.hose === 'loose'
      ? [[at[0] + 150, on + 30, at[2] - 130]]
      : [
          [at[0], at[1] + 12, at[2]],
          [at[0], Math.min(at[1] - 20, Math.max(on, at[1] - 200)), at[2]],
        ];
  const fan = unit[0] - 200;
  return roundedPath(
    [
      ...start,
      [RUN.from[0], on, RUN.from[1]],
      [RUN.to[0], on, RUN.to[1]],
      [fan, on, unit[2] - 620],
      [fan, floor + 330, unit[2] - 360],
      [fan, floor + 330, unit[2] - 110],
    ],
    105,
    6,
  );
}

/** Corrugated: a wire shows through the skin every so often. A split one gapes and has lost its dust. */
function hose(path: readonly Vec[], state: 'sound' | 'loose' | 'split', floor: number): Piece[] {
  const rubber = (solid: Solid): Piece => ({ surface: 'enamel', colour: '#35383a', solid });
  const end = path[0] as Vec;
  const next = path[1] as Vec;
  const pieces = [
    rubber(sweep(path, HOSE, 14)),
    ...ribs(path).map(([p, along]) => rubber(rib(p, along, HOSE))),
  ];
  if (state === 'loose') {
    const along: Vec = [next[0] - end[0], next[1] - end[1], next[2] - end[2]];
    const mouth = turned(
      end,
      along,
      [
        [0.1, HOSE - 5],
        [0, 0],
      ],
      { segments: 14 },
    );
    return [
      ...pieces,
      { surface: 'mark', colour: '#0c0d0d', solid: mouth },
      heap([end[0] - 60, floor, end[2]], 190, 40, 8),
    ];
  }
  if (state === 'sound') {
    // a worm clip where it is pushed on
    return [...pieces, band(add(end, [0, -16, 0]), [0, -1, 0], 9, COLOURS.brightSteel)];
  }
  const middle: Vec = [
    (RUN.from[0] * 3 + RUN.to[0]) / 4,
    floor + HOSE + 6,
    (RUN.from[1] * 3 + RUN.to[1]) / 4,
  ];
  const along: Vec = [RUN.to[0] - RUN.from[0], 0, RUN.to[1] - RUN.from[1]];
  const gash = stacked([
    [40, 0, 60, 12],
    [HOSE + 4, 10, 120, 34],
    [HOSE + 9, 0, 90, 14],
  ]);
  const side = Math.atan2(along[2], along[0]);
  return [
    ...pieces,
    {
      surface: 'mark',
      colour: '#0c0d0d',
      solid: movedSolid(gash, (v) => turnAbout('y', -side)(turnAbout('x', -0.5)(v)), middle),
    },
    // tape that did not hold
    band(add(middle, [-190, 0, -20]), along, 40, '#b4b6b4'),
    heap([middle[0] + 40, floor, middle[2] - 170], 240, 46, 9),
  ];
}

const rib = (at: Vec, along: Vec, radius: number): Solid =>
  turned(
    at,
    along,
    [
      [-6, radius - 1],
      [0, radius + 5],
      [6, radius - 1],
    ],
    { segments: 14, smooth: 'profile' },
  );

const band = (at: Vec, along: Vec, half: number, colour: string): Piece => ({
  surface: 'enamel',
  colour,
  solid: turned(
    at,
    along,
    [
      [-half, HOSE],
      [-half, HOSE + 7],
      [half, HOSE + 7],
      [half, HOSE],
    ],
    { segments: 16 },
  ),
});

/** Points about every 120 mm along a path, each with its direction. */
function ribs(path: readonly Vec[]): [Vec, Vec][] {
  const found: [Vec, Vec][] = [];
  let run = 60;
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1] as Vec, path[i] as Vec];
    const along: Vec = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const length = Math.hypot(...along);
    while (run < length) {
      const share = run / length;
      found.push([
        [a[0] + along[0] * share, a[1] + along[1] * share, a[2] + along[2] * share],
        along,
      ]);
      run += 120;
    }
    run -= length;
  }
  return found;
}

/** A funnel of sheet metal under a blade that has no hood of its own. */
function hopper(bench: Bench, layout: Layout): Piece[] {
  const [x, y] = outletOf(bench, layout);
  const top = y + 128;
  return [
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: turned(
        [x, y, 0],
        [0, 1, 0],
        [
          [-6, 48],
          [0, HOSE + 4],
          [54, HOSE + 4],
          [top - y, 150],
          [top - y, 144],
          [54, 48],
        ],
        { segments: 4 },
      ),
    },
  ];
}

/** A mouth over the guard on a hanging hose. */
function upperHose(bench: Bench, layout: Layout, unit: Vec): Piece[] {
  const { hoodRim, hoodDepth, floor } = layout;
  const guard = bench.guard;
  const high = hoodRim + hoodDepth * 0.9;
  const at: Vec = guard === null ? [120, 420, -160] : [guard.rear * 0.72, high + 60, -20];
  const hung: Vec = [at[0] + 280, 1250, 260];
  const path = roundedPath(
    [
      at,
      add(at, [50, 230, 50]),
      hung,
      [unit[0] - 200, 1250, unit[2]],
      [unit[0] - 200, floor + 540, unit[2]],
    ],
    170,
    7,
  );
  return [
    { surface: 'enamel', colour: '#35383a', solid: sweep(path, 38, 12) },
    ...ribs(path).map(
      ([p, along]): Piece => ({ surface: 'enamel', colour: '#35383a', solid: rib(p, along, 38) }),
    ),
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: turned(
        at,
        [-0.2, -1, -0.2],
        [
          [-30, 40],
          [10, 42],
          [62, 62],
          [62, 58],
        ],
        { segments: 16 },
      ),
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: bar(
        [hung[0] + 200, 1250, hung[2] + 60],
        [hung[0] + 200, floor + 3000, hung[2] + 60],
        4,
        6,
      ),
    },
  ];
}
