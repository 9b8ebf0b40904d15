import type { Bench } from '../../../src/bench/index.ts';
import { createStage, hasWebGL, type RackedKnife, type Stage } from '../../../src/scene/index.ts';

/** What the browser tests drive: one stage on one canvas, and what it has told us. */
type Probe = {
  stage: Stage | null;
  picks: unknown[];
  times: number[];
  events: string[];
  open(
    bench: Bench,
    theme: 'light' | 'dark',
    motion?: 'smooth' | 'none',
    rack?: readonly RackedKnife[],
  ): Promise<void>;
  hasWebGL(): boolean;
};

declare global {
  interface Window {
    probe: Probe;
  }
}

const canvas = document.getElementById('stage') as HTMLCanvasElement;

window.probe = {
  stage: null,
  picks: [],
  times: [],
  events: [],
  hasWebGL,
  open(bench, theme, motion = 'none', rack = []) {
    this.stage?.dispose();
    this.stage = createStage(canvas, bench, {
      theme,
      rack,
      reducedMotion: motion === 'none',
      onPick: (part, detail) => this.picks.push({ part, ...detail }),
      onFrame: (ms) => this.times.push(ms),
      onContextLost: () => this.events.push('lost'),
      onContextRestored: () => this.events.push('restored'),
    });
    // the whole picture: what comes after the bench itself too
    this.stage.renderNow();
    return this.stage.whole;
  },
};
