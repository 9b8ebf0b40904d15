import { INSTRUMENTS, MEASURING_POINTS } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { sayReading } from '../work/say-effect.ts';

/** What the instrument laid on the bench shows. The line under the bench says it aloud. */
export function ReadingPlate({ desk }: { readonly desk: Desk }) {
  const reading = desk.reading.value;
  if (reading === null) return null;
  return (
    <div class="bench-reading" aria-hidden="true">
      <span>{MEASURING_POINTS[reading.at].title}</span>
      <strong class="dimension">{sayReading(reading)}</strong>
      <span>{INSTRUMENTS[reading.with].title}</span>
    </div>
  );
}
