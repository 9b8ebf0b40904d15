import type { Attempt } from '../work/attempt.ts';
import type { Desk, View } from '../work/desk.ts';
import { say, sayIf } from '../work/words.ts';
import { DrawingView } from './drawing-view.tsx';
import { Group } from './group.tsx';
import { PictureView } from './picture-view.tsx';
import { ReadingPlate } from './reading-plate.tsx';
import { SupplyFlag } from './supply-flag.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

const DRAWINGS: readonly View[] = ['side', 'end', 'plan', 'knife', 'teeth'];

/** The bench itself: a picture to walk about in, or drawings of the same bench. */
export function StageView({ attempt, desk }: Props) {
  const hasPicture = desk.noPicture.value === null;
  const isPicture = hasPicture && desk.view.value === 'picture';
  return (
    <section class="bench-stage" aria-label={say('stage.name')}>
      <div class="bench-bar">
        {isPicture ? <Places desk={desk} /> : <DrawingTabs desk={desk} />}
        {hasPicture && (
          <button
            type="button"
            class="bench-bar-switch"
            onClick={() => {
              desk.view.value = isPicture ? 'side' : 'picture';
            }}
          >
            {say(isPicture ? 'stage.to-drawing' : 'stage.to-picture')}
          </button>
        )}
      </div>
      <div class="bench-view">
        {hasPicture && <PictureView attempt={attempt} desk={desk} isShown={isPicture} />}
        {!isPicture && <DrawingView attempt={attempt} desk={desk} />}
        <SupplyFlag attempt={attempt} desk={desk} />
        <ReadingPlate desk={desk} />
      </div>
    </section>
  );
}

/** Named places to stand, from the scene. */
function Places({ desk }: { readonly desk: Desk }) {
  const stage = desk.stage.value;
  return (
    <Group class="bench-places" name={say('stage.places')}>
      {stage?.viewpoints.map(({ id, title }) => (
        <button key={id} type="button" title={title} onClick={() => stage.goTo(id)}>
          {sayIf(`stand.${id}`, title)}
        </button>
      ))}
    </Group>
  );
}

function DrawingTabs({ desk }: { readonly desk: Desk }) {
  return (
    <Group class="bench-places" name={say('stage.drawings')}>
      {DRAWINGS.map((view) => (
        <button
          key={view}
          type="button"
          aria-pressed={shownDrawing(desk) === view}
          onClick={() => {
            desk.view.value = view;
          }}
        >
          {say(`view.${view as 'side'}`)}
        </button>
      ))}
    </Group>
  );
}

export const shownDrawing = (desk: Desk): Exclude<View, 'picture'> =>
  desk.view.value === 'picture' ? 'side' : desk.view.value;
