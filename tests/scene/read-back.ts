import { type Group, Mesh, Vector3 } from 'three';
import type { Point } from '../../src/geometry/index.ts';

/** A vertex as it stands in the scene, brought back to mm in the frame of the bench. */
export type Vertex = { readonly x: number; readonly y: number; readonly z: number };

/** mm: half a tenth, as asked of the scene. */
export const CLOSE = 0.05;

/** Every vertex of the meshes of one name, in mm of the bench frame, through all their parents. */
export function verticesOf(root: Group, name: string): Vertex[] {
  const vertices: Vertex[] = [];
  const point = new Vector3();
  root.updateMatrixWorld(true);
  root.traverse((object) => {
    if (!(object instanceof Mesh) || object.name !== name) return;
    const position = object.geometry.getAttribute('position');
    for (let i = 0; i < position.count; i++) {
      point.fromBufferAttribute(position, i).applyMatrix4(object.matrixWorld);
      vertices.push({ x: point.x * 1000, y: point.y * 1000, z: point.z * 1000 });
    }
  });
  return vertices;
}

export function meshesOf(root: Group): Mesh[] {
  const meshes: Mesh[] = [];
  root.traverse((object) => {
    if (object instanceof Mesh) meshes.push(object);
  });
  return meshes;
}

export const most = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
export const least = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

export const extent = (vertices: readonly Vertex[], axis: 'x' | 'y' | 'z'): [number, number] => {
  const values = vertices.map((v) => v[axis]);
  return [least(values), most(values)];
};

/** Distance in the side view from a point. */
export const reach = (v: Vertex, from: Point): number => Math.hypot(v.x - from.x, v.y - from.y);

/** How many separate directions, more than `apart` radians from one another, the vertices lie in. */
export function directions(vertices: readonly Vertex[], from: Point, apart: number): number {
  const angles = vertices.map((v) => Math.atan2(v.y - from.y, v.x - from.x)).sort((a, b) => a - b);
  const first = angles[0];
  if (first === undefined) return 0;
  return angles.filter((angle, i) => {
    const before =
      i === 0 ? (angles[angles.length - 1] as number) - 2 * Math.PI : (angles[i - 1] as number);
    return angle - before > apart;
  }).length;
}
