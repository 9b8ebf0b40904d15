import type { Finish } from './picture.ts';

/** From the best a quick machine can do while moving down to what a slow one needs. */
const MOVING: readonly Finish[] = [
  { sharpness: 1, samples: 4, contact: 'full' },
  { sharpness: 1, samples: 4, contact: 'none' },
  { sharpness: 0.8, samples: 0, contact: 'none' },
  { sharpness: 0.6, samples: 0, contact: 'none' },
  { sharpness: 0.45, samples: 0, contact: 'none' },
  { sharpness: 0.34, samples: 0, contact: 'none' },
];
export const AT_REST: Finish = { sharpness: 1, samples: 4, contact: 'full' };

/** ms a frame may take before quality drops, and below which it may rise again. */
const TOO_SLOW = 52;
const QUICK = 24;

/**
 * Chooses how much trouble to take over a frame while things move, from how long frames really take.
 * Starts in the middle: a slow machine is never made to wait long, a quick one rises within a second.
 */
export function createQuality() {
  let level = 2;
  let quickFrames = 0;
  return {
    moving: (): Finish => MOVING[level] as Finish,
    level: (): number => level,
    /** @param took ms between two frames that followed one another without a pause */
    note(took: number): void {
      if (took > TOO_SLOW) {
        quickFrames = 0;
        const steps = took > TOO_SLOW * 2.4 ? 2 : 1;
        level = Math.min(MOVING.length - 1, level + steps);
        return;
      }
      quickFrames = took < QUICK ? quickFrames + 1 : 0;
      if (quickFrames > 18 && level > 0) {
        quickFrames = 0;
        level -= 1;
      }
    },
  };
}
