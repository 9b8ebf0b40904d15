import type { Desk } from '../work/desk.ts';
import { namePlace, nameTool } from '../work/names.ts';
import { hidesReadings, sayReading } from '../work/say-effect.ts';

/** What the instrument laid on the bench shows. The line under the bench says it aloud. */
export function ReadingPlate({ desk }: { readonly desk: Desk }) {
  const shown = desk.reading.value;
  if (shown === null) return null;
  const { reading, bench } = shown;
  const isFigure = hidesReadings.value
    ? typeof reading.read?.mm === 'number'
    : reading.value !== null;
  return (
    <div class="bench-reading" aria-hidden="true">
      <span>{namePlace(reading.at)}</span>
      <strong class={isFigure ? 'dimension' : undefined}>{sayReading(reading, bench)}</strong>
      <span>{nameTool(reading.with)}</span>
    </div>
  );
}
