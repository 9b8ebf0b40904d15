import type { Bench } from '../../../bench/index.ts';
import type { Stage } from './stage-api.ts';
import { say } from './words.ts';

export type StageOptions = {
  readonly reducedMotion: boolean;
  readonly theme: 'light' | 'dark';
  readonly onPick: (part: string) => void;
  readonly onContextLost: () => void;
  readonly onContextRestored: () => void;
};

type Scene = {
  createStage: (canvas: HTMLCanvasElement, bench: Bench, options: StageOptions) => Stage;
  hasWebGL: () => boolean;
};

export type Opened =
  | { readonly ok: true; readonly stage: Stage }
  /** why there is no picture, as a sentence */
  | { readonly ok: false; readonly reason: string };

const scenes = import.meta.glob<Scene>('../../../scene/index.ts');

/** Fetches the picture's code, which only this page carries, and builds the bench on the canvas. */
export async function openStage(
  canvas: HTMLCanvasElement,
  bench: Bench,
  options: StageOptions,
): Promise<Opened> {
  try {
    const load = Object.values(scenes)[0];
    if (load === undefined) return { ok: false, reason: say('stage.none') };
    const scene = await load();
    if (!scene.hasWebGL()) return { ok: false, reason: say('stage.none') };
    return { ok: true, stage: scene.createStage(canvas, bench, options) };
  } catch {
    return { ok: false, reason: say('stage.failed') };
  }
}
