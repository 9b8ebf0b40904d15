import { INSTRUMENTS, MEASURING_POINTS } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { sayReading } from '../work/say-effect.ts';

/** What the instrument laid on the bench shows. The line under the bench says it aloud. */
export function ReadingPlate({ desk }: { readonly desk: Desk }) {
  const shown = desk.reading.value;
  if (shown === null) return null;
  const { reading, bench } = shown;
  return (
    <div class="bench-reading" aria-hidden="true">
      <span>{MEASURING_POINTS[reading.at].title}</span>
      <strong class={reading.value === null ? undefined : 'dimension'}>
        {sayReading(reading, bench)}
      </strong>
      <span>{INSTRUMENTS[reading.with].title}</span>
    </div>
  );
}
