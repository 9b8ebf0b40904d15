import {
  angularSpeed,
  type Bench,
  brakingTorque,
  type Disc,
  type Drag,
  rimSpeed,
  runDownTime,
  spinEnergy,
  steelDisc,
  USUAL_BORE,
} from '../../bench/index.ts';
import type { PlotRequest } from '../../drawing/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

export type Stopping = {
  readonly disc: Disc;
  /** J in the turning blade */
  readonly energy: number;
  /** N m of steady brake: for the time as it is, and for the limit where there is one */
  readonly torque: number;
  readonly torqueAtLimit: number | null;
  /** s to stand still where half the drag fades with the speed, and with its square */
  readonly fading: { readonly withSpeed: number; readonly withSquare: number };
  /** m/s at the rim half-way through a steady run-down */
  readonly rimHalfway: number;
  readonly plot: PlotRequest;
};

/**
 * Three laws with the same drag at full speed: what stops the blade in `time` s while it stays
 * steady. In the second half of it fades with the speed, in the third half with its square.
 */
export function threeDrags(
  inertia: number,
  from: number,
  time: number,
  say: Speaker = sayIn('en'),
) {
  const whole = (inertia * from) / time;
  const steady = whole / 2;
  return [
    { label: say('workings.plot.stop.steady'), drag: { steady: whole } },
    { label: say('workings.plot.stop.speed'), drag: { steady, viscous: steady / from } },
    { label: say('workings.plot.stop.square'), drag: { steady, windage: steady / from ** 2 } },
  ] as const satisfies readonly { label: string; drag: Drag }[];
}

/** s from full speed down to `to` rad/s. */
const timeDownTo = (inertia: number, from: number, to: number, drag: Drag): number =>
  runDownTime(inertia, from, drag) - (to > 0 ? runDownTime(inertia, to, drag) : 0);

const POINTS = 60;

/** @param limit s, the longest run-down a rule set allows; null where none is known */
export function stoppingOf(
  bench: Bench,
  limit: number | null,
  say: Speaker = sayIn('en'),
): Stopping {
  const { blade, arbor } = bench;
  const disc = steelDisc(blade.diameter, blade.plate, blade.bore ?? USUAL_BORE);
  const from = angularSpeed(arbor.speed);
  const laws = threeDrags(disc.inertia, from, arbor.runDown, say);
  const [, speed, square] = laws;
  return {
    disc,
    energy: spinEnergy(disc, arbor.speed),
    torque: brakingTorque(disc, arbor.speed, arbor.runDown),
    torqueAtLimit: limit === null ? null : brakingTorque(disc, arbor.speed, limit),
    fading: {
      withSpeed: runDownTime(disc.inertia, from, speed.drag),
      withSquare: runDownTime(disc.inertia, from, square.drag),
    },
    rimHalfway: rimSpeed(blade.diameter, arbor.speed / 2),
    plot: {
      title: say('workings.plot.stop.title'),
      description: say('workings.plot.stop.about'),
      x: { title: say('workings.plot.stop.time'), unit: 's', reaches: [0] },
      y: { title: say('workings.plot.stop'), unit: say('workings.unit.rpm'), reaches: [0] },
      curves: laws.map(({ label, drag }) => ({
        label,
        points: Array.from({ length: POINTS + 1 }, (_, i) => {
          const left = 1 - i / POINTS;
          return {
            x: timeDownTo(disc.inertia, from, left * from, drag),
            y: left * arbor.speed,
          };
        }),
      })),
      lines:
        limit === null
          ? []
          : [{ axis: 'x', at: limit, label: say('workings.plot.stop.limit', { limit }) }],
    },
  };
}
