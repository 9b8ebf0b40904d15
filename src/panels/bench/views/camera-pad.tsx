import { useState } from 'preact/hooks';
import type { Stage } from '../../../scene/index.ts';
import type { Desk } from '../work/desk.ts';
import { say } from '../work/words.ts';
import { Group } from './group.tsx';

/** One press turns the view as far as a drag of this many pixels, and comes nearer by this factor. */
const TURN = 60;
const NEARER = 0.8;

type Drive = (stage: Stage) => void;

const MOVES = {
  left: (stage) => stage.orbit(-TURN, 0),
  right: (stage) => stage.orbit(TURN, 0),
  up: (stage) => stage.orbit(0, -TURN),
  down: (stage) => stage.orbit(0, TURN),
  nearer: (stage) => stage.zoom(NEARER),
  further: (stage) => stage.zoom(1 / NEARER),
} as const satisfies Record<string, Drive>;
type Move = keyof typeof MOVES;

const SIGNS: Record<Move, string> = {
  left: 'M15 5l-7 7 7 7',
  right: 'M9 5l7 7-7 7',
  up: 'M5 15l7-7 7 7',
  down: 'M5 9l7 7 7-7',
  nearer: 'M12 5v14M5 12h14',
  further: 'M5 12h14',
};

const ALL_WAYS = 'M12 3v18M3 12h18M9 6l3-3 3 3M9 18l3 3 3-3M6 9l-3 3 3 3M18 9l3 3-3 3';
const CLOSE = 'M6 6l12 12M18 6L6 18';

const KEYS: Readonly<Record<string, Drive>> = {
  ArrowLeft: MOVES.left,
  ArrowRight: MOVES.right,
  ArrowUp: MOVES.up,
  ArrowDown: MOVES.down,
  '+': MOVES.nearer,
  '=': MOVES.nearer,
  '-': MOVES.further,
};
const SLIDES: Readonly<Record<string, Drive>> = {
  ArrowLeft: (stage) => stage.pan(TURN, 0),
  ArrowRight: (stage) => stage.pan(-TURN, 0),
  ArrowUp: (stage) => stage.pan(0, TURN),
  ArrowDown: (stage) => stage.pan(0, -TURN),
};

/** Arrows turn the view, with Shift they slide it, + and - come nearer and go back, digits go to a place. */
export function driveByKey(event: KeyboardEvent, stage: Stage | null): void {
  if (stage === null || event.ctrlKey || event.metaKey || event.altKey) return;
  // 0 stands for the tenth, as on the keyboard; those beyond are reached by their buttons
  const digit = /^[0-9]$/.test(event.key) ? Number(event.key) : null;
  const place = digit === null ? undefined : stage.viewpoints[(digit + 9) % 10];
  const drive: Drive | undefined =
    place !== undefined
      ? () => stage.goTo(place.id)
      : ((event.shiftKey ? SLIDES[event.key] : undefined) ?? KEYS[event.key]);
  if (drive === undefined) return;
  event.preventDefault();
  drive(stage);
}

/** The camera by buttons, for anyone who cannot drag; folded away until asked for. */
export function CameraPad({ desk }: { readonly desk: Desk }) {
  const [isOpen, setOpen] = useState(false);
  const [people, setPeople] = useState<'shown' | 'hidden'>('shown');
  const stage = desk.stage.value;
  if (stage === null) return null;
  const showPeople = (next: 'shown' | 'hidden'): void => {
    setPeople(next);
    stage.setPeople(next);
  };
  return (
    <div class="bench-camera" data-open={isOpen ? '' : undefined}>
      {isOpen && (
        <Group class="bench-camera-pad" name={say('camera.name')}>
          {(Object.keys(MOVES) as Move[]).map((move) => (
            <button
              key={move}
              type="button"
              data-move={move}
              aria-label={say(`camera.${move}`)}
              onClick={() => MOVES[move](stage)}
            >
              <Sign path={SIGNS[move]} />
            </button>
          ))}
          <button
            type="button"
            data-move="people"
            aria-pressed={people === 'shown'}
            onClick={() => showPeople(people === 'shown' ? 'hidden' : 'shown')}
          >
            {say('camera.people')}
          </button>
        </Group>
      )}
      <button
        type="button"
        class="bench-camera-open"
        aria-expanded={isOpen}
        aria-label={say('camera.name')}
        title={say('camera.name')}
        onClick={() => setOpen(!isOpen)}
      >
        <Sign path={isOpen ? CLOSE : ALL_WAYS} />
      </button>
    </div>
  );
}

export function Sign({ path }: { readonly path: string }) {
  return (
    <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false">
      <path d={path} fill="none" stroke="currentColor" stroke-width="2.5" />
    </svg>
  );
}
