import {
  type Bench,
  type Binding,
  bindingOf,
  clearOfStrip,
  estimateThrow,
  flightEnergy,
  HARM,
  rimSpeed,
  type Throw,
  timeToReach,
  worstThrow,
} from '../../bench/index.ts';
import type { PlotRequest } from '../../drawing/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

export type Case = {
  readonly bench: Bench;
  readonly binding: Binding;
  /** null when nothing is gripped or lifted */
  readonly thrown: Throw | null;
  /** of the two published figures of harm, how many times over; null without a throw */
  readonly harm: { readonly fragment: number; readonly skin: number } | null;
};

export type Throwing = {
  readonly on: Case;
  readonly off: Case;
  /** m/s: nothing leaves faster */
  readonly rim: number;
  /** kg of the piece between blade and fence, and J it would have at the speed of the rim */
  readonly mass: number;
  readonly rimEnergy: number;
  /** mm of z; it has no end toward the operator */
  readonly strip: Throw['strip'];
  /** mm from the strip to the trunk of the operator; 0 or less: some of the trunk is in it */
  readonly clearBy: number;
  /** ms from the middle of the blade to the operator, at the speed of the rim */
  readonly soonest: number;
  readonly plot: PlotRequest;
};

function caseOf(bench: Bench, closing: number): Case {
  const thrown = estimateThrow(bench, { closing });
  return {
    bench,
    binding: bindingOf(bench, { closing }),
    thrown,
    harm:
      thrown === null
        ? null
        : {
            fragment: thrown.energy / HARM.hazardousFragment,
            skin: thrown.density / HARM.skinPenetration,
          },
  };
}

/** Speed against length: the lighter the piece, the nearer it comes to the speed of the rim. */
function plotSpeed(bench: Bench, rim: number, now: Throw, say: Speaker): PlotRequest {
  const { length } = bench.job.stock;
  const longest = Math.max(1500, 1.25 * length);
  const points = Array.from({ length: 60 }, (_, i) => {
    const one = 50 + ((longest - 50) * i) / 59;
    const job = { ...bench.job, stock: { ...bench.job.stock, length: one } };
    return { x: one, y: worstThrow({ ...bench, job }).speed };
  });
  return {
    title: say('workings.plot.throw.title'),
    description: say('workings.plot.throw.about'),
    x: { title: say('workings.plot.throw.length'), unit: 'mm', reaches: [0] },
    y: { title: say('workings.plot.throw'), unit: 'm/s', reaches: [0] },
    curves: [{ label: say('workings.plot.throw.speed'), points }],
    marks: [
      {
        x: length,
        y: now.speed,
        label: say('workings.plot.throw.now', { speed: now.speed.toFixed(0) }),
      },
    ],
    lines: [{ axis: 'y', at: rim, label: say('workings.plot.throw.rim') }],
  };
}

/** The two cases side by side, and the strip that is kept clear in both. */
export function throwingOf(
  on: Bench,
  off: Bench,
  closing: number,
  say: Speaker = sayIn('en'),
): Throwing {
  const worst = worstThrow(off);
  const { blade, arbor, people } = off;
  const rim = rimSpeed(blade.diameter, arbor.speed);
  const { x } = people.operator;
  return {
    on: caseOf(on, closing),
    off: caseOf(off, closing),
    rim,
    mass: worst.mass,
    rimEnergy: flightEnergy(worst.mass, rim),
    strip: worst.strip,
    clearBy: clearOfStrip(off),
    soonest: timeToReach(-x, rim),
    plot: plotSpeed(off, rim, worst, say),
  };
}
