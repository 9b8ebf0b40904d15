export type Loop = {
  /** something has changed: draw soon, and once more at full quality when it has settled */
  stir(): void;
  /** draws at full quality before returning */
  drawNow(): void;
  /** frames drawn since the start */
  frames(): number;
  stop(): void;
};

/** ms the clock keeps ticking after a change, so that the time between frames is known. */
const KEEP_TICKING = 75;

/**
 * Draws when something changes and never otherwise.
 * @param step moves whatever is on its way; true while it has further to go
 * @param draw one frame, light while things move or at its best at rest
 * @param note how long one moving frame took after another, ms
 */
export function createLoop(work: {
  step(now: number): boolean;
  draw(how: 'moving' | 'rest'): void;
  note(took: number): void;
  /** ms without a change after which the picture is drawn once more, at its best */
  settle(): number;
}): Loop {
  let frames = 0;
  let request = 0;
  let settle: ReturnType<typeof setTimeout> | undefined;
  let dirty = false;
  let lastStir = 0;
  let lastDrawn = Number.NEGATIVE_INFINITY;
  let stopped = false;
  let missed = false;

  const draw = (how: 'moving' | 'rest'): void => {
    work.draw(how);
    frames += 1;
    dirty = false;
  };

  const rest = (): void => {
    // on a slow machine the next light frame may still be waiting its turn: then this is no rest yet
    missed = request !== 0;
    if (!stopped && !missed) draw('rest');
  };

  const tick = (now: number): void => {
    request = 0;
    const onItsWay = work.step(now);
    if (dirty || onItsWay) {
      if (now - lastDrawn < 1000) work.note(now - lastDrawn);
      draw('moving');
      lastDrawn = now;
      lastStir = onItsWay ? now : lastStir;
      clearTimeout(settle);
      missed = false;
      settle = setTimeout(rest, work.settle());
    } else lastDrawn = Number.NEGATIVE_INFINITY;
    if (onItsWay || now - lastStir < KEEP_TICKING) request = requestAnimationFrame(tick);
    else {
      lastDrawn = Number.NEGATIVE_INFINITY;
      if (missed) settle = setTimeout(rest, work.settle());
      missed = false;
    }
  };

  return {
    stir() {
      if (stopped) return;
      dirty = true;
      lastStir = performance.now();
      if (request === 0) request = requestAnimationFrame(tick);
    },
    drawNow() {
      if (stopped) return;
      work.step(Number.POSITIVE_INFINITY);
      clearTimeout(settle);
      draw('rest');
    },
    frames: () => frames,
    stop() {
      stopped = true;
      cancelAnimationFrame(request);
      clearTimeout(settle);
    },
  };
}
