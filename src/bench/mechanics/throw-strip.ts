import type { Bench } from '../schema/index.ts';

/** mm of z, toward the operator without end. */
export type Strip = { readonly from: number; readonly to: number };

export type Bystanding = 'operator' | 'takeOff' | 'bystander';

/**
 * The strip a thrown piece leaves by: straight back from the blade, as wide as the piece between
 * blade and fence or the way to the fence, whichever is wider. No distance along it is called safe.
 */
export function throwStrip({ blade, fence, job }: Bench): Strip {
  const width = Math.min(job.widthOfCut, job.stock.width);
  return { from: -blade.kerf / 2, to: blade.kerf / 2 + Math.max(fence.face, width) };
}

/** Everybody who stands in that strip, on the operator's side of the blade. */
export function whoIsInStrip(bench: Bench): Bystanding[] {
  const { from, to } = throwStrip(bench);
  const { operator, takeOff, bystander } = bench.people;
  const stands = { operator, takeOff, bystander };
  return (['operator', 'takeOff', 'bystander'] as const).filter((who) => {
    const at = stands[who] ?? null;
    return at !== null && at.x < 0 && at.z >= from && at.z <= to;
  });
}

/** mm across the trunk of a person, arms left out: common practice, no source. */
export const TRUNK = 400;

/** mm from the strip to the trunk of the operator; 0 or less: some of the trunk is in it. */
export function clearOfStrip(bench: Bench): number {
  const { from, to } = throwStrip(bench);
  const { z } = bench.people.operator;
  return Math.max(from - (z + TRUNK / 2), z - TRUNK / 2 - to);
}
