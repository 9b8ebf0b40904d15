import { Color, CompressedCubeTexture, DataUtils, HalfFloatType, RGBAFormat } from 'three';
import { dot, unit, type Vec } from '../shape/solid.ts';
import type { Theme } from './themes.ts';

/** Edge of the sharpest picture, pixels; each next one is half of it, for rougher metal. */
const SIZE = 32;
/**
 * For each rougher picture, how narrow the cone is that a point of it gathers light from: the power of
 * the cosine, as a count of squarings. Three reads a picture for roughness 1 - sqrt(1 - level / 2); the
 * powers are (2 / roughness^4 - 2) / 4, the last a plain cosine, which also serves matt surfaces.
 */
const CONES = [
  { squarings: 6, source: 16 },
  { squarings: 0, source: 8 },
] as const;

type Light = readonly [number, number, number];
type Panel = { readonly middle: Vec; readonly u: Vec; readonly v: Vec; readonly light: Light };

/**
 * The room as metal mirrors it: walls, ceiling, floor, lamps and windows, worked out here rather than
 * drawn, since filtering a drawn room costs seconds on a machine without a graphics card.
 * Made once for each theme; about 25 ms.
 */
export function makeSurroundings(theme: Theme): CompressedCubeTexture {
  const room = roomOf(theme);
  const faces = Array.from({ length: 6 }, () => ({
    width: SIZE,
    height: SIZE,
    mipmaps: [] as { data: Uint16Array; width: number; height: number }[],
  }));
  for (let level = 0; level <= CONES.length; level++) {
    const size = SIZE >> level;
    const cone = CONES[level - 1];
    const seen = cone === undefined ? null : directions(cone.source);
    const lights = seen?.map(({ to, weight }) => scaled(room(to), weight)) ?? [];
    for (let face = 0; face < 6; face++) {
      const data = new Uint16Array(size * size * 4);
      for (let i = 0; i < size * size; i++) {
        const to = texel(face, i % size, Math.floor(i / size), size);
        const light = seen === null ? room(to) : gather(to, seen, lights, cone?.squarings ?? 0);
        for (let k = 0; k < 3; k++) data[i * 4 + k] = DataUtils.toHalfFloat(light[k] as number);
        data[i * 4 + 3] = DataUtils.toHalfFloat(1);
      }
      faces[face]?.mipmaps.push({ data, width: size, height: size });
    }
  }
  const texture = new CompressedCubeTexture(faces as never, RGBAFormat as never, HalfFloatType);
  // already filtered for roughness, level by level
  texture.isPMREMTexture = true;
  texture.needsUpdate = true;
  return texture;
}

/** Where a texel of a cube face looks, in the scene. A cube map's x runs the other way from the scene's. */
function texel(face: number, column: number, row: number, size: number): Vec {
  const s = (2 * (column + 0.5)) / size - 1;
  const t = (2 * (row + 0.5)) / size - 1;
  const looks: readonly Vec[] = [
    [-1, -t, -s],
    [1, -t, s],
    [-s, 1, t],
    [-s, -1, -t],
    [-s, -t, 1],
    [s, -t, -1],
  ];
  return unit(looks[face] as Vec);
}

function directions(size: number): { to: Vec; weight: number }[] {
  return Array.from({ length: 6 * size * size }, (_, i) => {
    const inFace = i % (size * size);
    const [column, row] = [inFace % size, Math.floor(inFace / size)];
    const to = texel(Math.floor(i / (size * size)), column, row, size);
    const [s, t] = [(2 * (column + 0.5)) / size - 1, (2 * (row + 0.5)) / size - 1];
    // texels near a corner of the cube cover less of the sphere
    return { to, weight: (1 + s * s + t * t) ** -1.5 };
  });
}

const scaled = (light: Light, by: number): Light => [light[0] * by, light[1] * by, light[2] * by];

function gather(
  to: Vec,
  seen: readonly { to: Vec; weight: number }[],
  lights: readonly Light[],
  squarings: number,
): Light {
  let [r, g, b, sum] = [0, 0, 0, 0];
  const [x, y, z] = to;
  // below this cosine nothing is left of a share after its squarings
  const least = squarings === 0 ? 0 : 1e-4 ** (1 / 2 ** squarings);
  for (let i = 0; i < seen.length; i++) {
    const one = seen[i] as { to: Vec; weight: number };
    let share = x * one.to[0] + y * one.to[1] + z * one.to[2];
    if (share <= least) continue;
    for (let k = 0; k < squarings; k++) share *= share;
    const light = lights[i] as Light;
    r += light[0] * share;
    g += light[1] * share;
    b += light[2] * share;
    sum += share * one.weight;
  }
  return sum === 0 ? [0, 0, 0] : [r / sum, g / sum, b / sum];
}

/** Light coming from a direction, seen from over the table in a room 8 by 4 by 6 m. */
function roomOf({ around }: Theme): (to: Vec) => Light {
  const light = (colour: string, strength = 1): Light => {
    const { r, g, b } = new Color(colour).multiplyScalar(strength);
    return [r, g, b];
  };
  const walls = light(around.walls);
  const ceiling = light(around.ceiling);
  const floor = light(around.floor);
  const lamp = light('#fff6e6', around.lamps);
  const window = light(around.windowColour, around.window);
  const panels: readonly Panel[] = [
    { middle: [-0.6, 2.6, -1], u: [1.3, 0, 0], v: [0, 0, 0.16], light: lamp },
    { middle: [-0.6, 2.6, 1.1], u: [1.3, 0, 0], v: [0, 0, 0.16], light: lamp },
    { middle: [3.9, 1.1, -1], u: [0, 0, 0.75], v: [0, 0.65, 0], light: window },
    { middle: [3.9, 1.1, 1.2], u: [0, 0, 0.75], v: [0, 0.65, 0], light: window },
    { middle: [0.4, 1.1, 2.9], u: [1.1, 0, 0], v: [0, 0.65, 0], light: window },
    // the dark end of the shop, behind the operator
    { middle: [-3.6, 0.2, -1.4], u: [0, 0, 0.6], v: [0, 1.2, 0], light: scaled(floor, 0.8) },
  ];
  return (to) => {
    const across = Math.max(Math.abs(to[0]) / 4, Math.abs(to[2]) / 3);
    const base = to[1] / 2 > across ? ceiling : -to[1] > across ? floor : walls;
    for (const panel of panels) if (looksAt(panel, to)) return panel.light;
    return base;
  };
}

function looksAt({ middle, u, v }: Panel, to: Vec): boolean {
  const normal: Vec = [
    u[1] * v[2] - u[2] * v[1],
    u[2] * v[0] - u[0] * v[2],
    u[0] * v[1] - u[1] * v[0],
  ];
  const toward = dot(normal, to);
  const reach = dot(normal, middle) / toward;
  if (!Number.isFinite(reach) || reach <= 0) return false;
  const at: Vec = [to[0] * reach - middle[0], to[1] * reach - middle[1], to[2] * reach - middle[2]];
  return Math.abs(dot(at, u)) <= dot(u, u) && Math.abs(dot(at, v)) <= dot(v, v);
}
