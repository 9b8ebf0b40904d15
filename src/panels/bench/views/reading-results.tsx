import { namePlace, nameTool } from '../work/names.ts';
import type { Outcome } from '../work/protocol.ts';
import { sayResult } from '../work/result-words.ts';
import { sayShown } from '../work/say-effect.ts';
import { Mark } from './mark.tsx';

type Readings = Outcome['readings'];
type Taken = NonNullable<Readings[number]['taken']>;

/** Each place that was to be measured: what was read there, what the tool showed. */
export function ReadingResults({ readings }: { readonly readings: Readings }) {
  const right = readings.filter(({ taken }) => taken?.right === true).length;
  return (
    <section>
      <h3>{sayResult('outcome.readings')}</h3>
      <p>{sayResult('outcome.readings-count', { right, all: readings.length })}</p>
      <ul class="bench-results">
        {readings.map(({ at, taken }) => (
          <li key={at}>
            <p class="bench-result-head">
              <strong>{namePlace(at)}</strong>
            </p>
            <p class="verdict" data-verdict={taken?.right ? 'within' : 'outside'}>
              <Mark kind={taken?.right ? 'safe' : 'warning'} />
              {sayResult(
                taken === null ? 'reading.none' : taken.right ? 'reading.right' : 'reading.wrong',
              )}
            </p>
            {taken !== null && <p class="bench-result-limit">{sayBoth(taken)}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function sayBoth(taken: Taken): string {
  const length = (mm: number | null) =>
    mm === null ? sayResult('reading.nothing') : sayShown(mm, taken.with);
  return sayResult('reading.both', {
    tool: nameTool(taken.with),
    read: length(taken.read),
    shown: length(taken.shown),
    uncertainty: length(taken.uncertainty),
  });
}
