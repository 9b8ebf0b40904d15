import type { Bench } from '../schema/index.ts';
import { type Binding, bindingOf, type Pinch } from './binding.ts';
import { energyDensity, flightEnergy, grabSpeed, timeToReach } from './kickback.ts';
import { steelDisc, USUAL_BORE } from './run-down.ts';
import { rimSpeed } from './speed.ts';
import { type Strip, throwStrip } from './throw-strip.ts';

export type Throw = {
  readonly binding: Binding;
  /** kg of the piece between blade and fence */
  readonly mass: number;
  /** m/s, never more than the rim speed */
  readonly speed: number;
  /** J, and J/cm2 over the end of the piece */
  readonly energy: number;
  readonly density: number;
  /**
   * The strip the piece leaves by, straight back from the blade: mm of z, from every x toward the
   * operator without end. Nobody stands in it. No distance along it is ever called safe.
   */
  readonly strip: Strip;
  /** whoever stands in the strip: ms until it reaches them; null when it is empty */
  readonly reaches: { readonly who: 'operator'; readonly after: number } | null;
  /** fingers resting on the work bite when it goes back; an aid, never counted on */
  readonly fingersBite: boolean;
};

/**
 * What would be thrown, if the work binds as described: an estimate, deterministic.
 *
 * Assumed: the blade is a plain steel disc turning free of its motor; the piece is seized by the
 * whole rim and brought to a common speed with it; it flies straight and is not slowed; it strikes
 * with its end. What was found published for comparison: `HARM` beside the energy. No published
 * measurement of the speed itself was found.
 * @returns null when nothing is gripped or lifted: no throw is predicted, which is not a promise
 */
export function estimateThrow(bench: Bench, pinch: Pinch): Throw | null {
  const binding = bindingOf(bench, pinch);
  return binding.grips || binding.lifts ? throwOf(bench, binding) : null;
}

/** What the rim throws once it has the piece: without a knife, the kerf closed by its whole width. */
export const worstThrow = (bench: Bench): Throw =>
  throwOf(bench, bindingOf({ ...bench, knife: null }, { closing: bench.blade.kerf }));

/** The same once it is known that the teeth take the piece, however they came to. */
export function throwOf(bench: Bench, binding: Binding): Throw {
  const { blade, arbor, job, guard, people } = bench;
  const width = Math.min(job.widthOfCut, job.stock.width);
  const { length, thickness, density } = job.stock;
  const mass = (length * width * thickness * density) / 1e9;
  const disc = steelDisc(blade.diameter, blade.plate, blade.bore ?? USUAL_BORE);
  const speed = grabSpeed(rimSpeed(blade.diameter, arbor.speed), disc.mass, mass);
  const energy = flightEnergy(mass, speed);
  const strip = throwStrip(bench);
  const { x, z } = people.operator;
  const isInStrip = x < 0 && z >= strip.from && z <= strip.to;
  return {
    binding,
    mass,
    speed,
    energy,
    density: energyDensity(energy, (width * thickness) / 100),
    strip,
    reaches: isInStrip ? { who: 'operator', after: timeToReach(-x, speed) } : null,
    fingersBite: guard !== null && guard.fingers === 'resting',
  };
}
