import type { Bench } from '../../../bench/index.ts';
import type { Stage, StageOptions } from '../../../scene/index.ts';
import { say } from './words.ts';

export type Opened =
  | { readonly ok: true; readonly stage: Stage }
  /** why there is no picture, as a sentence */
  | { readonly ok: false; readonly reason: string };

/** Fetches the picture's code, which only this page carries, and builds the bench on the canvas. */
export async function openStage(
  canvas: HTMLCanvasElement,
  bench: Bench,
  options: StageOptions,
): Promise<Opened> {
  try {
    const scene = await import('../../../scene/index.ts');
    if (!scene.hasWebGL()) return { ok: false, reason: say('stage.none') };
    return { ok: true, stage: scene.createStage(canvas, bench, options) };
  } catch {
    return { ok: false, reason: say('stage.failed') };
  }
}
