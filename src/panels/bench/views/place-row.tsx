import type { MeasuringPointId } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { namePlace, nameTool } from '../work/names.ts';
import { instrumentsAt } from '../work/parts.ts';
import { sayReading } from '../work/say-effect.ts';
import { say } from '../work/words.ts';
import { Group } from './group.tsx';
import { OpenScale } from './open-scale.tsx';
import { ToolIcon } from './tool-icon.tsx';

type Props = {
  readonly desk: Desk;
  readonly at: MeasuringPointId;
};

/** One place to measure: what can be laid there, and what it last read. */
export function PlaceRow({ desk, at }: Props) {
  const taken = desk.readings.value.get(at);
  const title = namePlace(at);
  return (
    <Group class="bench-place" name={title}>
      <p aria-hidden="true">{title}</p>
      <div class="bench-place-tools">
        {instrumentsAt(at).map((instrument) => (
          <button
            key={instrument}
            type="button"
            class="button button--quiet"
            aria-label={say('place.lay', { tool: nameTool(instrument) })}
            data-in-hand={desk.tool.value === instrument ? '' : undefined}
            onClick={() => desk.lay(instrument, at)}
          >
            <ToolIcon tool={instrument} />
            {nameTool(instrument)}
          </button>
        ))}
      </div>
      {taken !== undefined && (
        <p class="bench-place-reading" data-stale={taken.isStale ? '' : undefined}>
          <span class="length">{sayReading(taken.reading, taken.bench)}</span>
          {taken.isStale && ` ${say('place.stale')}`}
        </p>
      )}
      <OpenScale desk={desk} at={at} />
    </Group>
  );
}
