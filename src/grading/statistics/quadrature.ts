import { requireWhole } from './arguments.ts';

export type Quadrature = { readonly nodes: readonly number[]; readonly weights: readonly number[] };

/** Orthonormal Hermite polynomials of the standard normal weight at x, orders 0 to `order`. */
function hermite(order: number, x: number): number[] {
  const values = [1, x];
  for (let k = 1; k < order; k += 1) {
    const next = x * (values[k] as number) - Math.sqrt(k) * (values[k - 1] as number);
    values.push(next / Math.sqrt(k + 1));
  }
  return values.slice(0, order + 1);
}

/** Root of the polynomial of this order between two points of opposite sign, by halving. */
function rootBetween(order: number, from: number, to: number): number {
  const valueAt = (x: number) => hermite(order, x)[order] as number;
  let [low, high] = [from, to];
  const rises = valueAt(high) > 0;
  for (let step = 0; step < 200; step += 1) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (valueAt(middle) > 0 === rises) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/**
 * Gauss-Hermite quadrature for the standard normal weight, 1 to 60 points: sum w f(x) is the mean
 * of f, exact for polynomials up to degree 2 points - 1. The roots of each order lie between those
 * of the order before (interlacing), and a weight is one over the sum of squares of the lower
 * orders (Christoffel; Abramowitz and Stegun 25.4.46 in another normalisation).
 */
export function gaussHermite(points: number): Quadrature {
  requireWhole('points', points, 1, 60);
  let nodes = [0];
  for (let order = 2; order <= points; order += 1) {
    const bound = 2 * Math.sqrt(order) + 1;
    const fences = [-bound, ...nodes, bound];
    nodes = fences.slice(1).map((to, i) => rootBetween(order, fences[i] as number, to));
  }
  const weights = nodes.map(
    (x) => 1 / hermite(points - 1, x).reduce((sum, value) => sum + value * value, 0),
  );
  return { nodes, weights };
}
