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
  const ease = (t: number) => t * t * (3 - 2 * t);
  return (u, v) => {
    const x = (u - Math.floor(u)) * across;
    const y = (v - Math.floor(v)) * down;
    const [x0, y0] = [Math.floor(x) % across, Math.floor(y) % down];
    const [x1, y1] = [(x0 + 1) % across, (y0 + 1) % down];
    const [tx, ty] = [ease(x - Math.floor(x)), ease(y - Math.floor(y))];
    const top =
      (values[y0 * across + x0] as number) * (1 - tx) + (values[y0 * across + x1] as number) * tx;
    const bottom =
      (values[y1 * across + x0] as number) * (1 - tx) + (values[y1 * across + x1] as number) * tx;
    return top * (1 - ty) + bottom * ty;
  };
}
