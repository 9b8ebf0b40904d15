import type { Finish } from './picture.ts';

/** From the best a quick machine can do while moving down to what a slow one needs. */
const MOVING: readonly Finish[] = [
  { sharpness: 1, samples: 4, contact: 'full' },
  { sharpness: 1, samples: 4, contact: 'none' },
  { sharpness: 0.8, samples: 0, contact: 'none' },
  { sharpness: 0.6, samples: 0, contact: 'none' },
  { sharpness: 0.45, samples: 0, contact: 'none' },
  { sharpness: 0.33, samples: 0, contact: 'none' },
  { sharpness: 0.24, samples: 0, contact: 'none' },
  { sharpness: 0.17, samples: 0, contact: 'none' },
];
export const AT_REST: Finish = { sharpness: 1, samples: 4, contact: 'full' };

/** ms a frame may take before quality drops, and below which it may rise again. */
const TOO_SLOW = 56;
const QUICK = 24;
/** ms of a whole frame at rest, and where a machine that takes at least so long starts. */
const STARTS = [
  { took: 1100, level: 7 },
  { took: 600, level: 6 },
  { took: 400, level: 5 },
  { took: 200, level: 4 },
  { took: 90, level: 3 },
  { took: 40, level: 2 },
  { took: 0, level: 1 },
] as const;
const SLOW_LEVEL = 4;

/**
 * Chooses how much trouble to take over a frame while things move, from how long frames really take.
 * Starts light, so that the first picture is soon there, then from the first picture at rest, so that
 * nobody waits for it to learn.
 */
export function createQuality() {
  let level = 5;
  let quickFrames = 0;
  return {
    moving: (): Finish => MOVING[level] as Finish,
    level: (): number => level,
    /** ms without a change before the best picture is drawn: longer where that picture is slow */
    settle: (): number => (level >= SLOW_LEVEL ? 320 : 150),
    /** @param took ms the graphics card needed for one picture at rest */
    start(took: number): void {
      level = STARTS.find((start) => took >= start.took)?.level ?? level;
    },
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

/**
 * Calls back with the ms until the graphics card has done all it was given, without holding anything up.
 */
export function whenDrawn(gl: WebGL2RenderingContext, tell: (took: number) => void): void {
  const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
  if (fence === null) return;
  const began = performance.now();
  gl.flush();
  const look = (): void => {
    if (gl.isContextLost()) return;
    const state = gl.clientWaitSync(fence, 0, 0);
    if (state === gl.TIMEOUT_EXPIRED) {
      setTimeout(look, 8);
      return;
    }
    gl.deleteSync(fence);
    tell(performance.now() - began);
  };
  setTimeout(look, 4);
}
