import { type Bench, type ClampedPart, MEASURING_POINTS } from '../../bench/index.ts';
import { layoutOf } from '../build/layout.ts';
import { stockBox } from '../build/stock.ts';
import { unit, type Vec } from '../shape/solid.ts';
import type { Place } from './places.ts';

/** Places taken by touch: a straightedge with leaves under it, or a dial gauge on its stand. mm. */

const LEFT: Vec = [0, 0, -1];
const FRONT: Vec = [-1, 0, 0];
const UP: Vec = [0, 1, 0];

/** A spot on the knife's left side, well clear of its edge; null when it is off. */
function knifeSide({ knife, arbor }: Bench, share: number): Vec | null {
  if (knife === null) return null;
  const y = Math.max(24, (knife.up + knife.reach - arbor.depth) * share);
  const up = y + arbor.depth - knife.up;
  const edge = knife.along + Math.sqrt(Math.max(0, knife.edgeRadius ** 2 - up ** 2));
  return [edge + 12, y, knife.lateral - knife.thickness / 2];
}

/** A straightedge through a gullet, flat on the plate and on past the knife. */
export function knifeInLine(bench: Bench): Place | null {
  const side = knifeSide(bench, 0.3);
  const touched = knifeSide(bench, 0.75);
  if (side === null || touched === null) return null;
  const [x, y, face] = side;
  const { halfAtTable, depth } = layoutOf(bench);
  const plate = -bench.blade.plate / 2;
  const rests = Math.min(plate, face);
  // the gap is at the knife, or at the plate when the knife stands prouder
  const gapAt = face > plate ? x : halfAtTable * 0.4;
  const pitch = (2 * Math.PI) / bench.blade.teeth;
  return {
    frame: 'leaning',
    from: [gapAt, y + 3, rests],
    to: [gapAt, y + 3, Math.max(plate, face)],
    face: LEFT,
    body: UP,
    hand: UP,
    eye: unit([0.35, 0.55, -1]),
    through: ['guard'],
    edges: [
      [
        [-halfAtTable * 0.2, y, rests - 6],
        [x + 40, y + 5, rests],
      ],
    ],
    tooth: Math.atan2(depth + y, halfAtTable) + pitch / 2,
    probe: { at: touched, out: LEFT },
  };
}

/** Where a dial gauge stands while the part is pushed. */
export function pushed(at: `${ClampedPart}-play`, bench: Bench): Place | null {
  const moves = MEASURING_POINTS[at].take(bench) ?? 0;
  const place = (frame: Place['frame'], contact: Vec, through: Place['through']): Place => ({
    frame,
    from: contact,
    to: [contact[0], contact[1], contact[2] - moves],
    face: LEFT,
    body: FRONT,
    hand: LEFT,
    eye: unit([-0.3, 0.5, -1]),
    through,
    edges: [],
    probe: { at: contact, out: LEFT },
  });
  const { hoodHalf, hoodRim, fenceFace } = layoutOf(bench);
  if (at === 'knife-play') {
    const side = knifeSide(bench, 0.75);
    return side && place('leaning', side, ['guard']);
  }
  if (at === 'guard-play') {
    const { guard } = bench;
    return (
      guard &&
      place('bench', [(guard.front + guard.rear) / 2, Math.max(64, hoodRim + 14), -hoodHalf], [])
    );
  }
  // beside the stock where the fence runs on past it, else over the stock
  const lead = stockBox(bench).to;
  const isBeyond = bench.fence.end > lead[0] + 40;
  const x = isBeyond ? bench.fence.end - 16 : bench.fence.end - 10;
  return place(
    'bench',
    [x, Math.max(64, isBeyond ? 0 : lead[1] + 34), fenceFace],
    isBeyond ? [] : ['stock'],
  );
}

/** A straightedge across the table and the insert's left edge. */
export function insertStep(bench: Bench): Place {
  const { mouth } = layoutOf(bench);
  const { step } = bench.insert;
  const x = mouth.to - 30;
  const y = Math.max(0, step);
  const z = -(mouth.half + (step > 0 ? 9 : -9));
  return {
    frame: 'bench',
    from: [x, Math.min(0, step), z],
    to: [x, y, z],
    face: LEFT,
    body: FRONT,
    hand: FRONT,
    eye: unit([0.2, 0.32, -1]),
    through: [],
    edges: [
      [
        [x - 2, y, -(mouth.half + 60)],
        [x + 4, y + 26, -8],
      ],
    ],
    probe: { at: [x, step, -(mouth.half - 12)], out: UP },
  };
}
