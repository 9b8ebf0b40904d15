import { type Bench, type Blade, bladeOutline, boreRadius } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { triangulate } from '../shape/prism.ts';
import { addQuad, addTriangle, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { bladeFlaws } from './blade-flaws.ts';
import { bendAt, splitTeeth, type TeethAndBody, type ToothLoop } from './blade-teeth.ts';

/**
 * The blade about the arbor axis, first tooth straight up: true outline, plate to its thickness,
 * teeth set over to the kerf, and its condition as it looks.
 */
export function bladePieces(bench: Bench): Piece[] {
  const { blade } = bench;
  const outline = bladeOutline(blade);
  const split = splitTeeth(blade, outline);
  const solid = emptySolid();
  addBody(solid, split, blade);
  for (const tooth of split.teeth) addTooth(solid, tooth, blade);
  const plate: Piece = {
    surface: 'plate',
    colour: COLOURS.bladeSteel,
    solid: { ...solid, uvs: polarUvs(solid) },
    tangents: radialTangents(solid),
    mesh: 'blade-plate',
  };
  return [plate, ...bladeFlaws(blade, outline, split)];
}

/** Ground in circles, the plate spreads light along its radius: a bow of brightness that turns with the eye. */
function radialTangents({ positions }: Solid): number[] {
  const tangents: number[] = [];
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y] = [positions[i] as number, positions[i + 1] as number];
    const radius = Math.hypot(x, y) || 1;
    tangents.push(x / radius, y / radius, 0, 1);
  }
  return tangents;
}

/** Grinding marks run round the plate: u goes round, v outward. */
function polarUvs(solid: Solid): number[] {
  const uvs: number[] = [];
  const { positions } = solid;
  for (let i = 0; i < positions.length; i += 9) {
    const angles = [0, 3, 6].map((k) =>
      Math.atan2(positions[i + k + 1] as number, positions[i + k] as number),
    );
    const first = angles[0] as number;
    [0, 3, 6].forEach((k, corner) => {
      // a triangle across the join of the circle must not run backwards
      let angle = angles[corner] as number;
      if (angle - first > Math.PI) angle -= 2 * Math.PI;
      if (first - angle > Math.PI) angle += 2 * Math.PI;
      const radius = Math.hypot(positions[i + k] as number, positions[i + k + 1] as number);
      uvs.push((angle / (2 * Math.PI)) * 5, radius / 70);
    });
  }
  return uvs;
}

function addBody(solid: Solid, { body: rim, floors }: TeethAndBody, blade: Blade): void {
  const half = blade.plate / 2;
  const inner = boreRadius(blade);
  const rings = [0, 0.25, 0.5, 0.75, 1];
  const at = (point: Point, share: number, z: number): Vec => {
    const radius = Math.hypot(point.x, point.y);
    const wanted = inner + (radius - inner) * share;
    return [(point.x / radius) * wanted, (point.y / radius) * wanted, z];
  };
  rim.forEach((a, i) => {
    const b = rim[(i + 1) % rim.length] as Point;
    for (let k = 0; k + 1 < rings.length; k++) {
      const [low, high] = [rings[k] as number, rings[k + 1] as number];
      addQuad(solid, [at(a, low, half), at(a, high, half), at(b, high, half), at(b, low, half)]);
      addQuad(solid, [
        at(b, low, -half),
        at(b, high, -half),
        at(a, high, -half),
        at(a, low, -half),
      ]);
    }
  });
  for (const floor of floors) {
    for (let i = 0; i + 1 < floor.length; i++) {
      addWall(solid, floor[i] as Point, floor[i + 1] as Point, (p, side) => [
        p.x,
        p.y,
        side * half,
      ]);
    }
  }
}

function addTooth(solid: Solid, tooth: ToothLoop, blade: Blade): void {
  const { points, set } = tooth;
  const half = blade.plate / 2;
  const corner = (p: Point, side: number): Vec => [
    p.x,
    p.y,
    side * half + bendAt(blade, set, Math.hypot(p.x, p.y)),
  ];
  for (const [i, j, k] of triangulate(points)) {
    const [a, b, c] = [points[i] as Point, points[j] as Point, points[k] as Point];
    addTriangle(solid, [corner(a, 1), corner(b, 1), corner(c, 1)]);
    addTriangle(solid, [corner(c, -1), corner(b, -1), corner(a, -1)]);
  }
  // the base is shared with the body and needs no wall
  for (let i = 0; i < tooth.faceEnd; i++) {
    addWall(solid, points[i] as Point, points[i + 1] as Point, corner);
  }
}

function addWall(
  solid: Solid,
  a: Point,
  b: Point,
  corner: (point: Point, side: number) => Vec,
): void {
  addQuad(solid, [corner(a, -1), corner(b, -1), corner(b, 1), corner(a, 1)]);
}
