import { type Radians, radians } from '../../geometry/index.ts';

/**
 * What one tooth does on its way through the stock. Angles are measured at the arbor axis from the
 * top of the blade toward the operator, so a tooth enters the top of the stock at the smaller
 * angle and leaves through the table at the larger. All follow from circle geometry.
 */
export type CutArc = {
  readonly entry: Radians;
  readonly exit: Radians;
  /** mm of tip circle in the stock */
  readonly length: number;
};

/** mm each tooth advances: f = U / (n z). `feed` in m/min, `speed` in rpm. */
export const feedPerTooth = (feed: number, speed: number, teeth: number): number =>
  (feed * 1000) / (speed * teeth);

/**
 * The part of the tip circle that lies in the stock.
 * @param tipRadius mm
 * @param depth mm from the table down to the arbor axis
 * @param stock mm of stock in the blade plane; a blade that does not come through enters at its top
 */
export function cutArc(tipRadius: number, depth: number, stock: number): CutArc {
  const entry = Math.acos(Math.min(1, (depth + stock) / tipRadius));
  const exit = Math.acos(depth / tipRadius);
  return { entry: radians(entry), exit: radians(exit), length: tipRadius * (exit - entry) };
}

/** mm thickness of the chip at tooth angle `angle`: h = f sin(angle). */
export const chipThickness = (bite: number, angle: number): number => bite * Math.sin(angle);

/** mm mean thickness over the cut: f t / l, since kerf x h x l carries away kerf x f x t. */
export const meanChipThickness = (bite: number, stock: number, arc: CutArc): number =>
  (bite * stock) / arc.length;

/** How many teeth are in the stock at once, on average. */
export const teethInArc = (teeth: number, arc: CutArc): number =>
  (teeth * (arc.exit - arc.entry)) / (2 * Math.PI);

/**
 * Share of a gullet that the solid chip of one tooth fills, 0 to 1 and over.
 * The area of a gullet is about pitch x depth / 1.75: common practice in the trade, no source.
 */
export function gulletFill(
  tipRadius: number,
  teeth: number,
  gulletDepth: number,
  bite: number,
  stock: number,
): number {
  const pitch = (2 * Math.PI * tipRadius) / teeth;
  return (bite * stock) / ((pitch * gulletDepth) / 1.75);
}
