import {
  DataTexture,
  LinearFilter,
  LinearMipmapLinearFilter,
  RepeatWrapping,
  RGBAFormat,
} from 'three';
import { latticeNoise } from './noise.ts';

type Shade = (u: number, v: number) => readonly [number, number, number];

/** A tiling texture computed pixel by pixel. Values 0..1, linear: they multiply a surface's colour. */
function paintTexture(width: number, height: number, shade: Shade): DataTexture {
  const data = new Uint8Array(width * height * 4);
  const level = (value: number) => Math.min(255, Math.max(0, value * 255));
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const [r, g, b] = shade(column / width, row / height);
      const at = (row * width + column) * 4;
      data[at] = level(r);
      data[at + 1] = level(g);
      data[at + 2] = level(b);
      data[at + 3] = 255;
    }
  }
  const texture = new DataTexture(data, width, height, RGBAFormat);
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.generateMipmaps = true;
  texture.anisotropy = 4;
  texture.needsUpdate = true;
  return texture;
}

/** White all over. */
export const plainTexture = (): DataTexture => paintTexture(1, 1, () => [1, 1, 1]);

/** Planed and rubbed metal: fine lines along u, and the soft blotches of use. The brighter, the rougher. */
export function ironGrain(): DataTexture {
  const lines = latticeNoise(6, 128, 1);
  const fine = latticeNoise(24, 256, 2);
  const blotch = latticeNoise(5, 5, 3);
  const patch = latticeNoise(13, 13, 4);
  return paintTexture(256, 256, (u, v) => {
    const streak = 0.5 * lines(u, v) + 0.5 * fine(u, v);
    const use = 0.6 * blotch(u, v) + 0.4 * patch(u, v);
    const tone = 0.83 + 0.12 * streak + 0.1 * (use - 0.5);
    return [tone, tone, tone];
  });
}

/** Sand-cast and painted: a fine even tooth. */
export function castGrain(): DataTexture {
  const fine = latticeNoise(96, 96, 5);
  const broad = latticeNoise(9, 9, 6);
  return paintTexture(128, 128, (u, v) => {
    const tone = 0.9 + 0.1 * fine(u, v) - 0.08 * broad(u, v);
    return [tone, tone, tone];
  });
}

/** Long grain: growth lines along u that wander, with fine pores. */
export function timberGrain(): DataTexture {
  const wander = latticeNoise(3, 4, 7);
  const drift = latticeNoise(2, 9, 8);
  const years = latticeNoise(1, 8, 16);
  const depth = latticeNoise(2, 23, 17);
  const pores = latticeNoise(14, 256, 9);
  const tone = latticeNoise(2, 14, 10);
  return paintTexture(256, 256, (u, v) => {
    // good years and poor ones: the rings are never evenly spaced
    const across = v * 24 + 5.5 * years(0, v) + 2.6 * wander(u, v) + 1.2 * drift(u, v);
    const ring = across - Math.floor(across);
    // early wood is pale and broad, late wood a narrow dark line with a sharp edge
    const late = ring < 0.72 ? (ring / 0.72) ** 3 : ((1 - ring) / 0.28) ** 2;
    const shade =
      1 - (0.1 + 0.2 * depth(u, v)) * late - 0.12 * pores(u, v) ** 2 - 0.08 * tone(u, v);
    return [shade, shade * (1 - 0.05 * late), shade * (1 - 0.13 * late)];
  });
}

/** End grain: rings about a heart below the board, with rays. The texture spans 256 mm. */
export function endGrain(): DataTexture {
  const wobble = latticeNoise(7, 7, 11);
  const speck = latticeNoise(128, 128, 12);
  return paintTexture(256, 256, (u, v) => {
    const [x, y] = [(u - 0.42) * 256, v * 256 + 46];
    const radius = Math.hypot(x, y) + 5 * wobble(u, v);
    const ring = radius / 5.2 - Math.floor(radius / 5.2);
    const late = ring < 0.7 ? (ring / 0.7) ** 3 : ((1 - ring) / 0.3) ** 2;
    const ray = 0.04 * Math.max(0, Math.sin(Math.atan2(y, x) * 90)) ** 6;
    const shade = 0.93 - 0.3 * late - 0.12 * speck(u, v) + ray;
    return [shade, shade * (1 - 0.07 * late), shade * (1 - 0.16 * late)];
  });
}

/** Power-floated concrete. */
export function concreteGrain(): DataTexture {
  const broad = latticeNoise(4, 4, 13);
  const patch = latticeNoise(11, 11, 14);
  const fine = latticeNoise(64, 64, 15);
  return paintTexture(128, 128, (u, v) => {
    const tone = 0.84 + 0.12 * (broad(u, v) - 0.5) + 0.1 * (patch(u, v) - 0.5) + 0.1 * fine(u, v);
    return [tone, tone * 0.995, tone * 0.98];
  });
}
