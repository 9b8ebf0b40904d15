import { type InstrumentId, type MeasuringPointId, WALK } from '../../../bench/index.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { namePlace } from '../work/names.ts';
import { isClamped, placesOn, type Tool } from '../work/parts.ts';
import { sayReading } from '../work/say-effect.ts';
import { say } from '../work/words.ts';
import { OpenScale } from './open-scale.tsx';
import { PartSheet } from './part-sheet.tsx';
import { TurnBlade } from './turn-blade.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** Every part of the bench by name: the same bench as the picture, for eyes, keys or a screen reader. */
export function PartsPaper({ attempt, desk }: Props) {
  const part = desk.part.value;
  if (part !== null) return <PartSheet key={part} attempt={attempt} desk={desk} part={part} />;
  const tool = desk.tool.value;
  if (tool !== null) return <WithTool attempt={attempt} desk={desk} tool={tool} />;
  return (
    <>
      <h2>{say('parts.title')}</h2>
      <p class="hint">{say('parts.hint')}</p>
      <ul class="bench-parts">
        {WALK.map((one) => (
          <li key={one}>
            <button type="button" id={`bench-part-${one}`} onClick={() => desk.open(one)}>
              {say(`part.${one}`)}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** With a tool in the hand: where it can be laid, part by part. */
function WithTool({ attempt, desk, tool }: Props & { readonly tool: Tool }) {
  return (
    <>
      <h2>{say(`in-hand.${tool}`)}</h2>
      <p class="hint">{say(tool === 'hand' ? 'in-hand.try-hint' : 'in-hand.lay-hint')}</p>
      {tool === 'hand' ? (
        <ToTry desk={desk} />
      ) : (
        <ToLay attempt={attempt} desk={desk} tool={tool} />
      )}
      <p>
        <button type="button" class="button button--quiet" onClick={() => desk.take(tool)}>
          {say('in-hand.put-down')}
        </button>
      </p>
    </>
  );
}

function ToTry({ desk }: { readonly desk: Desk }) {
  return (
    <>
      <ul class="bench-parts">
        {WALK.filter(isClamped).map((part) => (
          <li key={part}>
            <button type="button" onClick={() => desk.act({ do: 'try', part })}>
              {say(`part.${part}`)}
            </button>
          </li>
        ))}
      </ul>
      {desk.stage.value !== null && <TurnBlade desk={desk} />}
    </>
  );
}

function ToLay({ desk, tool }: Props & { readonly tool: InstrumentId }) {
  return (
    <>
      {WALK.map((part) => [part, placesOn(part, tool)] as const)
        .filter(([, places]) => places.length > 0)
        .map(([part, places]) => (
          <section key={part}>
            <h3>{say(`part.${part}`)}</h3>
            <ul class="bench-parts">
              {places.map((at) => (
                <li key={at}>
                  <Lay desk={desk} tool={tool} at={at} />
                  {desk.reading.value?.reading.with === tool && <OpenScale desk={desk} at={at} />}
                </li>
              ))}
            </ul>
          </section>
        ))}
    </>
  );
}

type LayProps = {
  readonly desk: Desk;
  readonly tool: InstrumentId;
  readonly at: MeasuringPointId;
};

function Lay({ desk, tool, at }: LayProps) {
  const taken = desk.readings.value.get(at);
  const isThis = taken?.reading.with === tool;
  return (
    <button type="button" class="bench-lay" onClick={() => desk.lay(tool, at)}>
      <span>{namePlace(at)}</span>
      {taken !== undefined && isThis && (
        <span class="length" data-stale={taken.isStale ? '' : undefined}>
          {sayReading(taken.reading, taken.bench)}
        </span>
      )}
    </button>
  );
}
