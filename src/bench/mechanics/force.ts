/**
 * Forces on the stock. `cutting` acts along the tooth's path, `normal` square to it toward the
 * arbor, both N; the angle is the tooth's, from the top of the blade toward the operator.
 */
export type ToothForce = {
  /** N toward the operator */
  readonly pushBack: number;
  /** N onto the table; negative lifts */
  readonly down: number;
};

export const toothForce = (cutting: number, normal: number, angle: number): ToothForce => ({
  pushBack: cutting * Math.cos(angle) + normal * Math.sin(angle),
  down: cutting * Math.sin(angle) - normal * Math.cos(angle),
});

/**
 * W wanted at the blade: kc x kerf x stock x feed.
 * @param specific kc, N/mm2. Published handbook values come without provenance and run from about
 *   15 to 100 (from memory): always an assumption to be stated, never a fact.
 * @param kerf mm  @param stock mm  @param feed m/min
 */
export const cuttingPower = (specific: number, kerf: number, stock: number, feed: number): number =>
  (specific * kerf * stock * feed) / 60;

/** N, mean force at the rim that a power (W) means at a rim speed (m/s). */
export const meanRimForce = (power: number, speed: number): number => power / speed;
