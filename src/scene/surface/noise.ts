/** Smooth noise that repeats, so that a texture made of it tiles without a seam. */
export type Noise = (x: number, y: number) => number;

/** A small repeatable generator: the same seed always gives the same grain. */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
}

/**
 * Values 0 to 1 on a lattice of `across` by `down` cells, smoothed between.
 * @returns a function of (u, v) in 0..1 that repeats at 1
 */
export function latticeNoise(across: number, down: number, seed: number): Noise {
  const random = seededRandom(seed * 7919 + 13);
  const values = Float32Array.from({ length: across * down }, random);
  return (u, v) => {
    const x = (u - Math.floor(u)) * across;
    const y = (v - Math.floor(v)) * down;
    // (u, v) just below a whole number may round up to the far edge
    const x0 = Math.min(across - 1, x | 0);
    const y0 = Math.min(down - 1, y | 0);
    const x1 = x0 + 1 === across ? 0 : x0 + 1;
    const row0 = y0 * across;
    const row1 = y0 + 1 === down ? 0 : row0 + across;
    let tx = x - x0;
    let ty = y - y0;
    tx = tx * tx * (3 - 2 * tx);
    ty = ty * ty * (3 - 2 * ty);
    const a = values[row0 + x0] as number;
    const b = values[row0 + x1] as number;
    const c = values[row1 + x0] as number;
    const d = values[row1 + x1] as number;
    const top = a + (b - a) * tx;
    return top + (c + (d - c) * tx - top) * ty;
  };
}
