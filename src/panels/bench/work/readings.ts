import type { Bench, MeasuringPointId } from '../../../bench/index.ts';
import type { Done } from './attempt.ts';
import type { Reading } from './say-effect.ts';

export type Taken = {
  readonly reading: Reading;
  /** the bench it was read on */
  readonly bench: Bench;
  readonly isStale: boolean;
};

/** The last reading at each place, and whether anything has been moved since. */
export function readingsOf(done: readonly Done[]): ReadonlyMap<MeasuringPointId, Taken> {
  const taken = new Map<MeasuringPointId, Taken>();
  const moved = done.findLastIndex((one) => one.action.do === 'set');
  for (const [index, one] of done.entries()) {
    for (const effect of one.effects) {
      if (effect.kind !== 'reading') continue;
      taken.set(effect.at, { reading: effect, bench: one.before, isStale: index < moved });
    }
  }
  return taken;
}
