/**
 * Birmingham wire gauge, in inches: the scale saw plate is sold by. Three published tables agree.
 * Imperial standard and American wire gauges are other scales and give other thicknesses.
 */
export const BIRMINGHAM_GAUGE: Readonly<Record<number, number>> = {
  8: 0.165,
  10: 0.134,
  11: 0.12,
  12: 0.109,
  13: 0.095,
  14: 0.083,
  15: 0.072,
  16: 0.065,
  17: 0.058,
  18: 0.049,
};
