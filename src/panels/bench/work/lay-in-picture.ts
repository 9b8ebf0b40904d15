import type { Stage } from '../../../scene/index.ts';
import type { Desk, ShownCut } from './desk.ts';

/** Shows in the picture what the reading plate tells of: the instrument, where it lies, what it reads. */
export function layInPicture(stage: Stage, desk: Desk): void {
  const shown = desk.reading.value;
  stage.showInstrument(
    shown === null
      ? null
      : { instrument: shown.reading.with, at: shown.reading.at, reading: shown.reading.value },
  );
}

/** Shows the stock where the trial cut has brought it; null puts it back before the blade. */
export function showCutIn(stage: Stage, shown: ShownCut | null): void {
  if (shown === null) {
    void stage.showCut(null);
    return;
  }
  const { strip, ...state } = shown;
  void stage.showCut(strip === null ? state : { ...state, strip });
}
