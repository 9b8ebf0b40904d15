import { useEffect, useRef } from 'preact/hooks';
import type { Part } from '../../../bench/index.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { focusSoon } from '../work/focus-soon.ts';
import { isClamped, placesOn, settingsOf } from '../work/parts.ts';
import { say } from '../work/words.ts';
import { wordsOpen } from '../work/words-open.ts';
import { Sign } from './camera-pad.tsx';
import { Clamp } from './clamp.tsx';
import { Isolator } from './isolator.tsx';
import { WithTold } from './later.tsx';
import { PlaceRow } from './place-row.tsx';
import { SettingHandle } from './setting-handle.tsx';
import { TurnBlade } from './turn-blade.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk; readonly part: Part };

/** All that can be seen of one part and done to it. */
export function PartSheet({ attempt, desk, part }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // arrows that pass over the tab of this paper keep going
    if (document.activeElement?.role !== 'tab') heading.current?.focus({ preventScroll: true });
    heading.current?.closest('.bench-paper')?.scrollTo({ top: 0 });
  }, [part]);
  const bench = attempt.bench.value;
  if (bench === null) return null;
  const isWorking = attempt.phase.value === 'working';
  const places = placesOn(part);

  function goBack(): void {
    desk.close();
    focusSoon(`bench-part-${part}`);
  }

  return (
    <section class="bench-sheet" aria-labelledby="bench-sheet-name">
      <div class="bench-sheet-head">
        <button
          type="button"
          class="bench-icon"
          aria-label={say('sheet.back')}
          title={say('sheet.back')}
          onClick={goBack}
        >
          <Sign path="M11 5l-7 7 7 7M4 12h16" />
        </button>
        <h2 id="bench-sheet-name" ref={heading} tabIndex={-1}>
          {say(`part.${part}`)}
        </h2>
        {desk.stage.value !== null && (
          <button
            type="button"
            class="button button--quiet"
            onClick={() => {
              desk.view.value = 'picture';
              desk.stage.value?.lookAt(part);
            }}
          >
            {say('sheet.closer')}
          </button>
        )}
      </div>
      <InWords attempt={attempt} desk={desk} part={part} />
      {isWorking && (
        <>
          {part === 'blade' && isPicture(desk) && <TurnBlade desk={desk} />}
          {part === 'controls' && <Isolator bench={bench} desk={desk} />}
          {isClamped(part) && <Clamp bench={bench} desk={desk} part={part} />}
          {!isClamped(part) &&
            settingsOf(part).map((setting) => (
              <SettingHandle key={setting} bench={bench} desk={desk} setting={setting} />
            ))}
          {places.length > 0 && (
            <section>
              <h3>{say('sheet.measure')}</h3>
              {places.map((at) => (
                <PlaceRow key={at} desk={desk} at={at} />
              ))}
            </section>
          )}
          {attempt.started.value?.task.faults === true && (
            <p class="bench-sheet-write">
              <button
                type="button"
                class="button"
                onClick={() => {
                  attempt.jot({ part, fault: '', remedy: '' });
                  desk.turnTo('faults');
                  focusSoon('bench-write');
                }}
              >
                {say('sheet.write')}
              </button>
            </p>
          )}
        </>
      )}
    </section>
  );
}

/** The part told in words: shut beside a picture until somebody opens it, open where there is none. */
function InWords({ attempt, desk, part }: Props) {
  const bench = attempt.bench.value;
  if (bench === null) return null;
  const isOpen = wordsOpen.value ?? desk.stage.value === null;
  return (
    <details
      class="bench-words"
      open={isOpen}
      onToggle={(event) => {
        if (event.currentTarget.open !== isOpen) wordsOpen.value = event.currentTarget.open;
      }}
    >
      <summary>{say('sheet.words')}</summary>
      <WithTold>
        {({ Told }) => (
          <Told bench={bench} part={part} turned={isPicture(desk) ? desk.turned.value : 0} />
        )}
      </WithTold>
    </details>
  );
}

/** The drawings show the blade as it was given; only in the picture can it be turned. */
const isPicture = (desk: Desk): boolean =>
  desk.stage.value !== null && desk.view.value === 'picture';
