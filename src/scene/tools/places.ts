import { type Bench, knifeEdge, type MeasuringPointId, type Part } from '../../bench/index.ts';
import { arcPoints, directionFrom, distance, type Point, pointAt } from '../../geometry/index.ts';
import { layoutOf } from '../build/layout.ts';
import { stickPlace } from '../build/push-stick.ts';
import { stockBox } from '../build/stock.ts';
import { unit, type Vec } from '../shape/solid.ts';
import { insertStep, knifeInLine, pushed } from './places-by-touch.ts';

/** Where an instrument is held: the very length it takes, and how it lies against the work. mm. */
export type Place = {
  /** in the frame of the bench, or of what leans with a tilted arbor */
  readonly frame: 'bench' | 'leaning';
  /** zero of the instrument, and where its reading falls */
  readonly from: Vec;
  readonly to: Vec;
  /** the way a rule's graduated face looks, and the way its body lies from the measured line */
  readonly face: Vec;
  readonly body: Vec;
  /** the way leaves and jaws come in from: toward the hand */
  readonly hand: Vec;
  /** from the place toward the eye */
  readonly eye: Vec;
  /** parts shown see-through meanwhile, since the place is hidden behind them */
  readonly through: readonly Part[];
  /** straightedges laid to carry a line to the instrument: two opposite corners each */
  readonly edges: readonly (readonly [Vec, Vec])[];
  /** jaws spread between two faces, instead of closing over one piece */
  readonly inside?: true;
  /** direction about the arbor axis, radians, that a tooth is turned to so that there is something to hold to */
  readonly tooth?: number;
  /** where a dial gauge's plunger stands, and the way it looks out from the part */
  readonly probe?: { readonly at: Vec; readonly out: Vec };
  /** a second reading of the same kind, for a difference */
  readonly second?: { readonly from: Vec; readonly to: Vec };
};

/** Straight up from the arbor. */
const TOP = Math.PI / 2;
const LEFT: Vec = [0, 0, -1];
const RIGHT: Vec = [0, 0, 1];
const UP: Vec = [0, 1, 0];
const FRONT: Vec = [-1, 0, 0];
const REAR: Vec = [1, 0, 0];
const NOTHING = { through: [], edges: [] } as const;
const FROM_LEFT_LOW = unit([-0.25, 0.2, -1]);

/** Where the named length lies on this bench; null when the part is off or there is nothing to hold to. */
export function placeOf(at: MeasuringPointId, bench: Bench): Place | null {
  switch (at) {
    case 'knife-gap-at-table':
    case 'knife-gap-at-tip':
    case 'knife-gap-greatest':
      return knifeGap(at, bench);
    case 'knife-tip-drop':
      return tipDrop(bench);
    case 'knife-thickness':
      return knifeThickness(bench);
    case 'knife-in-line':
      return knifeInLine(bench);
    case 'knife-play':
    case 'guard-play':
    case 'fence-play':
      return pushed(at, bench);
    case 'insert-step':
      return insertStep(bench);
    case 'blade-plate':
    case 'blade-kerf':
      return acrossBlade(at, bench);
    case 'blade-height':
      return bladeHeight(bench);
    case 'guard-to-stock':
      return guardToStock(bench);
    case 'guard-front':
    case 'guard-rear':
      return guardEnd(at, bench);
    case 'fence-end':
      return fenceEnd(bench);
    case 'fence-face':
    case 'fence-toe':
      return fenceFace(at, bench);
    case 'insert-left':
    case 'insert-right':
      return insertGap(at, bench);
    case 'stock-thickness':
      return stockThickness(bench);
    case 'stick-length':
      return stickLength(bench);
  }
}

function knifeGap(at: MeasuringPointId, bench: Bench): Place | null {
  if (bench.knife === null) return null;
  const { tipRadius, depth } = layoutOf(bench);
  const axis = { x: 0, y: -depth };
  const points = arcPoints(knifeEdge(bench.knife, depth), 240);
  const far = (p: Point) => distance(p, axis);
  const chosen =
    at === 'knife-gap-at-table'
      ? points[0]
      : at === 'knife-gap-at-tip'
        ? points[points.length - 1]
        : points.reduce((best, p) => (far(p) > far(best) ? p : best));
  const edge = chosen as Point;
  const out = directionFrom(axis, edge);
  const tip = pointAt(axis, tipRadius, out);
  // from the fence side the rule reads from left to right; with the fence in the way, from the other
  const side = bench.fence.end < 40 ? 1 : -1;
  const z = side * (bench.blade.kerf / 2 + 0.3);
  const round: Vec = [-Math.sin(out), Math.cos(out), 0];
  const low = at === 'knife-gap-at-table';
  return {
    frame: 'leaning',
    from: [tip.x, tip.y, z],
    to: [edge.x, edge.y, z],
    face: side > 0 ? RIGHT : LEFT,
    // the rule lies along the line, its body up from the table or down from the top
    body: low ? round : [-round[0], -round[1], 0],
    hand: side > 0 ? RIGHT : LEFT,
    eye: low ? unit([0.3, 0.85, side]) : unit([0.1, 0.26, side]),
    through: low ? [] : ['guard'],
    edges: [],
    tooth: out,
  };
}

function tipDrop(bench: Bench): Place | null {
  if (bench.knife === null) return null;
  const { projection, depth } = layoutOf(bench);
  const edge = knifeEdge(bench.knife, depth);
  const tip = pointAt(edge.centre, edge.radius, edge.to);
  const z = -3.4;
  const x = Math.max(tip.x + 8, 30);
  return {
    frame: 'leaning',
    from: [x, projection, z],
    to: [x, tip.y, z],
    face: LEFT,
    body: REAR,
    hand: LEFT,
    eye: unit([0.1, 0.16, -1]),
    through: ['guard'],
    edges: [
      [
        [-36, projection, -3],
        [x + 46, projection + 18, 0],
      ],
    ],
    tooth: TOP,
  };
}

function knifeThickness(bench: Bench): Place | null {
  if (bench.knife === null) return null;
  const { knife } = bench;
  const { depth } = layoutOf(bench);
  const centre = { x: knife.along, y: knife.up - depth };
  const y = Math.max(12, (knife.up + knife.reach - depth) * 0.4);
  const breadth = Math.min(90, Math.max(36, 0.2 * knife.edgeRadius));
  const back =
    centre.x + Math.sqrt(Math.max(0, (knife.edgeRadius + breadth) ** 2 - (y - centre.y) ** 2));
  const x = back - breadth * 0.3;
  return {
    frame: 'leaning',
    from: [x, y, knife.lateral - knife.thickness / 2],
    to: [x, y, knife.lateral + knife.thickness / 2],
    face: UP,
    body: REAR,
    hand: REAR,
    eye: unit([0.75, 0.62, -0.5]),
    through: ['guard'],
    edges: [],
  };
}

function acrossBlade(at: MeasuringPointId, bench: Bench): Place {
  const { projection } = layoutOf(bench);
  const { kerf, plate, gulletDepth } = bench.blade;
  const half = (at === 'blade-kerf' ? kerf : plate) / 2;
  const y = at === 'blade-kerf' ? projection - 2 : projection - gulletDepth * 1.7;
  return {
    frame: 'leaning',
    from: [0, y, -half],
    to: [0, y, half],
    face: FRONT,
    body: UP,
    hand: UP,
    eye: unit([-1, 0.42, -0.4]),
    through: ['guard'],
    edges: [],
    tooth: TOP,
  };
}

function bladeHeight(bench: Bench): Place {
  const { projection, hoodHalf } = layoutOf(bench);
  const z = -hoodHalf - 16;
  return {
    frame: 'leaning',
    from: [0, 0, z],
    to: [0, projection, z],
    face: LEFT,
    body: FRONT,
    hand: LEFT,
    eye: unit([-0.22, 0.16, -1]),
    through: ['guard'],
    edges: [
      [
        [-9, projection, z - 6],
        [9, projection + 5, 26],
      ],
    ],
    tooth: TOP,
  };
}

function guardToStock(bench: Bench): Place | null {
  if (bench.guard === null) return null;
  const { overWork, hoodHalf } = layoutOf(bench);
  const { to: lead } = stockBox(bench);
  const top = lead[1];
  const x = Math.max(bench.guard.front + 20, Math.min(lead[0] - 8, bench.guard.rear - 20));
  const z = -hoodHalf - 0.6;
  const bare = x > lead[0] - 4;
  return {
    frame: 'bench',
    from: [x, top, z],
    to: [x, overWork, z],
    face: LEFT,
    body: FRONT,
    hand: LEFT,
    eye: FROM_LEFT_LOW,
    through: [],
    edges: bare
      ? [
          [
            [lead[0] - 70, top - 4, z - 4],
            [x + 16, top, z + 6],
          ],
        ]
      : [],
  };
}

/** A straightedge on the table square across from `x`, between two distances from the blade. */
const across = (x: number, z0: number, z1: number, y = 0): readonly [Vec, Vec] => [
  [x, y, z0],
  [x + 0.6, y + 9, z1],
];

function guardEnd(at: MeasuringPointId, bench: Bench): Place | null {
  const { guard } = bench;
  if (guard === null) return null;
  const { depth, halfAtTable } = layoutOf(bench);
  const stock = stockBox(bench);
  const isFront = at === 'guard-front';
  const teeth = isFront ? -halfAtTable : halfAtTable;
  const end = isFront ? guard.front : guard.rear;
  const z = isFront ? Math.min(stock.from[2] - 16, -46) : -46;
  return {
    frame: 'bench',
    from: [teeth, 0.6, z],
    to: [end, 0.6, z],
    face: UP,
    body: LEFT,
    hand: LEFT,
    eye: unit([isFront ? -0.3 : 0.3, 0.75, -1]),
    through: [],
    edges: [across(teeth - (isFront ? 0.6 : 0), z, -4), across(end - (isFront ? 0 : 0.6), z, -24)],
    tooth: Math.atan2(depth, teeth),
  };
}

function fenceEnd(bench: Bench): Place {
  const { depth, halfAtTable, fenceFace } = layoutOf(bench);
  const stock = stockBox(bench);
  const lies = Math.min(bench.fence.end, -halfAtTable) < stock.to[0] + 2 ? stock.to[1] : 0;
  const z = fenceFace - 3;
  return {
    frame: 'bench',
    from: [-halfAtTable, lies + 0.6, z],
    to: [bench.fence.end, lies + 0.6, z],
    face: UP,
    body: LEFT,
    hand: LEFT,
    eye: unit([-0.35, 0.85, -0.75]),
    through: lies === 0 ? [] : [],
    edges: [across(-halfAtTable - 0.6, bench.blade.kerf / 2, z, lies)],
    tooth: Math.atan2(depth, -halfAtTable),
  };
}

/** The rule butts against the fence and is read where it meets the kerf. */
function fenceFace(at: MeasuringPointId, bench: Bench): Place {
  const { depth, halfAtTable, fenceFace: face } = layoutOf(bench);
  const { kerf } = bench.blade;
  const lead = stockBox(bench).to;
  const x = Math.min(-halfAtTable - 0.5, bench.fence.end - 4);
  // a rule lies before the teeth, on the stock where that is in its way
  const y = (x - 20 < lead[0] ? lead[1] : 0) + 0.6;
  const common = {
    frame: 'bench',
    from: [x, y, face],
    to: [x, y, kerf / 2],
    face: UP,
    body: FRONT,
    hand: UP,
    eye: unit([1, 0.95, 0.4]),
    inside: true,
    tooth: Math.atan2(depth, -halfAtTable),
    ...NOTHING,
  } as const;
  if (at === 'fence-face') return common;
  const reach = bench.fence.end < halfAtTable;
  return {
    ...common,
    from: [-halfAtTable, y, face],
    to: [-halfAtTable, y, kerf / 2],
    probe: { at: [halfAtTable, 64, face + bench.fence.toe], out: LEFT },
    second: {
      from: [halfAtTable, 0.6, face + bench.fence.toe],
      to: [halfAtTable, 0.6, kerf / 2],
    },
    edges: reach
      ? [
          [
            [Math.min(bench.fence.end, -halfAtTable), 0, face],
            [halfAtTable + 24, 24, face + 3],
          ],
        ]
      : [],
    eye: unit([0.8, 1.2, 0.5]),
  };
}

function insertGap(at: MeasuringPointId, bench: Bench): Place {
  const { depth, halfAtTable } = layoutOf(bench);
  const sign = at === 'insert-left' ? -1 : 1;
  const gap = at === 'insert-left' ? bench.insert.gaps[0] : bench.insert.gaps[1];
  const edge = (sign * bench.blade.kerf) / 2;
  const y = bench.insert.step + 0.5;
  const x = -halfAtTable + 9;
  return {
    frame: 'bench',
    from: [x, y, edge],
    to: [x, y, edge + sign * gap],
    face: UP,
    body: REAR,
    hand: UP,
    eye: unit([0.5, 0.7, sign]),
    through: ['guard'],
    edges: [],
    tooth: Math.atan2(depth, -halfAtTable),
  };
}

function stockThickness(bench: Bench): Place {
  const { from, to } = stockBox(bench);
  const x = to[0] - 70;
  const z = from[2] - 0.6;
  return {
    frame: 'bench',
    from: [x, 0, z],
    to: [x, to[1], z],
    face: LEFT,
    body: FRONT,
    hand: LEFT,
    eye: FROM_LEFT_LOW,
    ...NOTHING,
  };
}

function stickLength(bench: Bench): Place | null {
  const stick = bench.people.pushStick;
  if (stick === null) return null;
  const { x, z } = stickPlace(bench);
  return {
    frame: 'bench',
    from: [x, 0.6, z - 26],
    to: [x + stick.length, 0.6, z - 26],
    face: UP,
    body: LEFT,
    hand: LEFT,
    eye: unit([-0.1, 0.9, -0.9]),
    ...NOTHING,
  };
}
