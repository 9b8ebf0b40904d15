/**
 * A stream of numbers that is the same for the same seed on every machine: the small fast counter
 * generator with 128 bits of state (sfc32), seeded through a 32-bit string hash. Integer
 * arithmetic only, so no two machines can differ in the last bit.
 */
export type Random = {
  /** a fraction in [0, 1) */
  readonly fraction: () => number;
  /** a whole number from `least` to `most`, ends included */
  readonly whole: (least: number, most: number) => number;
  /** a length from `least` to `most` in steps of `step` */
  readonly step: (least: number, most: number, step: number) => number;
  readonly pick: <T>(from: readonly T[]) => T;
  /** `count` different items in random order; all of them when there are fewer */
  readonly sample: <T>(from: readonly T[], count: number) => T[];
};

function hashWords(seed: string): [number, number, number, number] {
  const words: [number, number, number, number] = [0x9e3779b9, 0x243f6a88, 0xb7e15162, 0x85ebca6b];
  for (let i = 0; i < seed.length; i++) {
    const slot = i % 4;
    words[slot] = Math.imul((words[slot] ?? 0) ^ seed.charCodeAt(i), 0x01000193) >>> 0;
  }
  return words;
}

export function seedRandom(seed: string): Random {
  let [a, b, c, d] = hashWords(seed);
  const next = (): number => {
    const sum = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return sum >>> 0;
  };
  // the first outputs still look like the seed
  for (let i = 0; i < 16; i++) next();

  const fraction = (): number => next() / 4294967296;
  const whole = (least: number, most: number): number =>
    least + Math.floor(fraction() * (most - least + 1));
  return {
    fraction,
    whole,
    step: (least, most, step) => {
      const steps = whole(0, Math.round((most - least) / step));
      return Number((least + steps * step).toFixed(3));
    },
    pick: (from) => {
      const chosen = from[whole(0, from.length - 1)];
      if (chosen === undefined) throw new RangeError('cannot pick from an empty list');
      return chosen;
    },
    sample: (from, count) => {
      const left = [...from];
      const taken: typeof left = [];
      while (taken.length < count && left.length > 0) {
        taken.push(...left.splice(whole(0, left.length - 1), 1));
      }
      return taken;
    },
  };
}
