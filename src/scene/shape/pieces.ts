import { BufferAttribute, BufferGeometry, Color, Group, Mesh } from 'three';
import type { Part } from '../../bench/index.ts';
import type { Palette, SurfaceId } from '../surface/palette.ts';
import type { Solid } from './solid.ts';
import { weld } from './weld.ts';

type Axis = 'x' | 'y' | 'z';

export type Piece = {
  readonly surface: SurfaceId;
  /** sRGB, as in a style sheet */
  readonly colour: string;
  readonly solid: Solid;
  /** which way the grain or the working lines run; along x when not given */
  readonly grain?: Axis;
  /** pieces of one name make one mesh; for those that tests or tools ask for by name */
  readonly mesh?: string;
  /** how solid a stain is at each corner, 0..1; solid when not given */
  readonly alphas?: readonly number[];
  /** the way the grinding spreads light at each corner, four numbers each */
  readonly tangents?: readonly number[];
  /** shades of each corner, linear, in place of `colour` */
  readonly shades?: readonly number[];
};

/** Pours pieces into as few meshes as there are surfaces and names. */
export function pour(part: Part, pieces: readonly Piece[], palette: Palette): Group {
  const group = mergeInto(pieces, palette);
  group.name = part;
  for (const mesh of group.children) {
    mesh.userData.part = part;
    if (mesh.name === '') mesh.name = part;
  }
  return group;
}

/** The same without a part: for what does not belong to the bench. */
export function mergeInto(pieces: readonly Piece[], palette: Palette): Group {
  const group = new Group();
  const batches = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const key = `${piece.mesh ?? ''}:${piece.surface}`;
    const batch = batches.get(key);
    if (batch) batch.push(piece);
    else batches.set(key, [piece]);
  }
  for (const batch of batches.values()) {
    const first = batch[0] as Piece;
    const surface = palette.surfaces[first.surface];
    const mesh = new Mesh(mergePieces(batch, surface.tile), surface.material);
    mesh.name = first.mesh ?? '';
    const lies = first.surface === 'mark' || first.surface === 'stain';
    mesh.castShadow = !lies && first.surface !== 'floor' && first.surface !== 'wall';
    mesh.receiveShadow = first.surface !== 'mark';
    // the room is behind everything: drawn last, most of it is never shaded
    if (first.surface === 'floor' || first.surface === 'wall') mesh.renderOrder = 1;
    group.add(mesh);
  }
  return group;
}

function mergePieces(pieces: readonly Piece[], tile: readonly [number, number]): BufferGeometry {
  const corners = pieces.reduce((sum, piece) => sum + piece.solid.positions.length / 3, 0);
  const channels = pieces.some((piece) => piece.alphas !== undefined) ? 4 : 3;
  const positions = new Float32Array(corners * 3);
  const normals = new Float32Array(corners * 3);
  const uvs = new Float32Array(corners * 2);
  const colours = new Float32Array(corners * channels);
  const colour = new Color();
  let at = 0;
  for (const { solid, colour: shade, grain, alphas, shades } of pieces) {
    positions.set(solid.positions, at * 3);
    normals.set(solid.normals, at * 3);
    uvs.set(solid.uvs ?? projectUvs(solid, tile, grain ?? 'x'), at * 2);
    const count = solid.positions.length / 3;
    colour.set(shade);
    for (let i = 0; i < count; i++) {
      const target = (at + i) * channels;
      colours[target] = shades?.[i * 3] ?? colour.r;
      colours[target + 1] = shades?.[i * 3 + 1] ?? colour.g;
      colours[target + 2] = shades?.[i * 3 + 2] ?? colour.b;
      if (channels === 4) colours[target + 3] = alphas?.[i] ?? 1;
    }
    at += count;
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  geometry.setAttribute('uv', new BufferAttribute(uvs, 2));
  geometry.setAttribute('color', new BufferAttribute(colours, channels));
  const tangents = pieces.flatMap((piece) => piece.tangents ?? []);
  if (tangents.length === corners * 4) {
    geometry.setAttribute('tangent', new BufferAttribute(new Float32Array(tangents), 4));
  }
  weld(geometry);
  geometry.computeBoundingSphere();
  return geometry;
}

const INDEX: Record<Axis, 0 | 1 | 2> = { x: 0, y: 1, z: 2 };

/** Lays the texture on each face squarely, its grain along `grain`, at its true size. */
function projectUvs(solid: Solid, tile: readonly [number, number], grain: Axis): number[] {
  const along = INDEX[grain];
  const uvs: number[] = [];
  const { positions, normals } = solid;
  for (let i = 0; i < positions.length; i += 9) {
    // one face, one projection: a seam inside a triangle would smear the grain
    const weight = (axis: number) =>
      Math.abs(at(normals, i + axis) + at(normals, i + 3 + axis) + at(normals, i + 6 + axis));
    const [wx, wy, wz] = [weight(0), weight(1), weight(2)];
    const facing = wx >= wy - 1e-6 && wx >= wz - 1e-6 ? 0 : wy >= wz - 1e-6 ? 1 : 2;
    const first = facing === 0 ? 1 : 0;
    const second = facing === 2 ? 1 : 2;
    const u = along === second ? second : first;
    const v = u === first ? second : first;
    for (let k = i; k < i + 9; k += 3) {
      uvs.push(at(positions, k + u) / tile[0], at(positions, k + v) / tile[1]);
    }
  }
  return uvs;
}

const at = (values: readonly number[], i: number): number => values[i] as number;
