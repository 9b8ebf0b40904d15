import type { InstrumentId, MeasuringPointId } from '../../../bench/index.ts';
import type { Stage } from '../../../scene/index.ts';
import type { Desk } from './desk.ts';

type Laid = {
  readonly instrument: InstrumentId;
  readonly at: MeasuringPointId;
  readonly reading: number | null;
};
/** A scene that can show an instrument laid on the bench. */
type ShowsInstruments = { readonly showInstrument?: (laid: Laid | null) => void };

/** Shows in the picture what the reading plate tells of: the instrument, where it lies, what it reads. */
export function layInPicture(stage: Stage & ShowsInstruments, desk: Desk): void {
  const shown = desk.reading.value;
  stage.showInstrument?.(
    shown === null
      ? null
      : { instrument: shown.reading.with, at: shown.reading.at, reading: shown.reading.value },
  );
}
