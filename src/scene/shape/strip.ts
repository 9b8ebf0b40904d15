import { BufferAttribute, BufferGeometry } from 'three';
import { add, cross, unit, type Vec } from './solid.ts';

/**
 * A flat four-cornered strip carrying a picture: `along` is the picture's width from left to right,
 * `up` its height from bottom to top.
 */
export function flatStrip(origin: Vec, along: Vec, up: Vec): BufferGeometry {
  const corners = [
    origin,
    add(origin, along),
    add(add(origin, along), up),
    add(origin, up),
  ] as const;
  const normal = unit(cross(along, up));
  const order = [0, 1, 2, 0, 2, 3] as const;
  const uv = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const;
  const geometry = new BufferGeometry();
  const fill = (values: number[][], size: number) =>
    new BufferAttribute(new Float32Array(values.flat()), size);
  geometry.setAttribute(
    'position',
    fill(
      order.map((i) => [...corners[i]]),
      3,
    ),
  );
  geometry.setAttribute(
    'normal',
    fill(
      order.map(() => [...normal]),
      3,
    ),
  );
  geometry.setAttribute(
    'uv',
    fill(
      order.map((i) => [...uv[i]]),
      2,
    ),
  );
  // white: the picture brings the colours, and the surface shares its shader with timber
  geometry.setAttribute(
    'color',
    new BufferAttribute(new Float32Array(order.length * 3).fill(1), 3),
  );
  geometry.computeBoundingSphere();
  return geometry;
}
