import { effect } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { RackedKnife } from '../../../scene/index.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { layInPicture, showCutIn } from '../work/lay-in-picture.ts';
import { prefersStillness, sheetTheme, watchTheme } from '../work/screen.ts';
import { openStage } from '../work/stage-loader.ts';
import { say } from '../work/words.ts';
import { CameraPad, driveByKey } from './camera-pad.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk; readonly isShown: boolean };

/** The bench in three dimensions. It draws only when the bench, the camera or the window changes. */
export function PictureView({ attempt, desk, isShown }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [theme, setTheme] = useState(sheetTheme());
  const [isLost, setLost] = useState(false);
  useEffect(() => watchTheme(() => setTheme(sheetTheme())), []);
  useEffect(
    () => runStage({ attempt, desk, canvas: canvas.current, theme, setLost }),
    [attempt, desk, theme],
  );
  return (
    <div class="bench-picture" hidden={!isShown}>
      <div
        class="bench-canvas"
        data-pointed={desk.pointed.value === null ? undefined : ''}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the view is driven by keys (role application)
        tabIndex={0}
        role="application"
        aria-label={say('stage.canvas')}
        aria-describedby="bench-canvas-keys"
        onKeyDown={(event) => {
          const teeth = { '.': 1, ',': -1 }[event.key];
          if (teeth === undefined) driveByKey(event, desk.stage.value);
          else desk.turnBlade(teeth);
        }}
      >
        {/* a new canvas for each theme: a stage is built once, on one canvas */}
        <canvas key={theme} ref={canvas} />
      </div>
      <p id="bench-canvas-keys" class="unseen">
        {say('stage.keys')}
      </p>
      {desk.stage.value === null && (
        <p class="bench-setting-out" role="status">
          {say('stage.opening')}
        </p>
      )}
      {isLost && (
        <p class="bench-setting-out" role="alert">
          {say('stage.lost')}
        </p>
      )}
      <CameraPad desk={desk} />
      <Pointed desk={desk} />
    </div>
  );
}

type Run = {
  readonly attempt: Attempt;
  readonly desk: Desk;
  readonly canvas: HTMLCanvasElement | null;
  readonly theme: 'light' | 'dark';
  readonly setLost: (isLost: boolean) => void;
};

/** The riving knives that hang by this bench, as the page was built with them. */
const rackOf = (canvas: HTMLCanvasElement): readonly RackedKnife[] =>
  JSON.parse(canvas.closest<HTMLElement>('[data-rack]')?.dataset['rack'] ?? '[]');

/** Opens the stage and keeps it in step with the bench; the answer puts all of it away. */
function runStage({ attempt, desk, canvas, theme, setLost }: Run): () => void {
  const bench = attempt.bench.peek();
  if (canvas === null || bench === null) return () => undefined;
  const endings: (() => void)[] = [];
  let isOver = false;
  const open = openStage(canvas, bench, {
    reducedMotion: prefersStillness(),
    theme,
    rack: rackOf(canvas),
    onPick: (part, detail) => desk.pick(part, detail?.tooth),
    mayTurn: () => desk.mayTurn(),
    onTurn: (teeth) => desk.wasTurned(teeth),
    onHover: (part) => {
      desk.pointed.value = part;
    },
    onContextLost: () => setLost(true),
    onContextRestored: () => setLost(false),
  });
  void open.then((opened) => {
    if (!opened.ok) {
      desk.noPicture.value = opened.reason;
      desk.speak(opened.reason);
      return;
    }
    const { stage } = opened;
    if (isOver) {
      stage.dispose();
      return;
    }
    const sizes = new ResizeObserver(() => stage.resize());
    sizes.observe(canvas);
    endings.push(
      () => sizes.disconnect(),
      effect(() => {
        if (attempt.bench.value !== null) stage.update(attempt.bench.value);
      }),
      effect(() => layInPicture(stage, desk)),
      effect(() => showCutIn(stage, desk.shownCut.value)),
      () => stage.dispose(),
    );
    stage.setLamp(desk.lamp.peek());
    if (desk.turned.peek() !== 0) stage.turnBlade(desk.turned.peek());
    stage.highlight(desk.part.peek());
    desk.stage.value = stage;
  });
  return () => {
    isOver = true;
    desk.stage.value = null;
    for (const end of endings) end();
  };
}

/** The name of the part under the pointer. */
function Pointed({ desk }: { readonly desk: Desk }) {
  const part = desk.pointed.value;
  return part === null ? null : (
    <p class="bench-pointed" aria-hidden="true">
      {say(`part.${part}`)}
    </p>
  );
}
