import { useEffect, useState } from 'preact/hooks';
import type { Bench } from '../../../bench/index.ts';
import type { drawBench } from '../../../drawing/index.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk, ShownCut, View } from '../work/desk.ts';
import { say } from '../work/words.ts';
import { shownDrawing } from './stage-view.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };
type Draw = typeof drawBench;

/** The same bench as line drawings; they need no graphics card and read well on paper. */
export function DrawingView({ attempt, desk }: Props) {
  const [draw, setDraw] = useState<{ readonly by: Draw } | null>(null);
  const [hasFailed, setFailed] = useState(false);
  useEffect(() => {
    import('../../../drawing/index.ts').then(
      (drawing) => setDraw({ by: drawing.drawBench }),
      () => setFailed(true),
    );
  }, []);
  const bench = attempt.bench.value;
  const view = shownDrawing(desk);
  return (
    <div class="bench-drawing-view">
      {hasFailed && <p role="alert">{say('stage.no-drawing')}</p>}
      {draw !== null && bench !== null && (
        <Drawing by={draw.by} bench={bench} view={view} cut={desk.shownCut.value} />
      )}
    </div>
  );
}

type DrawingProps = {
  readonly by: Draw;
  readonly bench: Bench;
  readonly view: Exclude<View, 'picture'>;
  readonly cut: ShownCut | null;
};

function Drawing({ by, bench, view, cut }: DrawingProps) {
  const svg = by(bench, {
    view,
    ...(cut === null ? {} : { cut }),
    title: say(`drawing.${view}`),
    description: say('drawing.description'),
  });
  return (
    <div
      class="drawing"
      // computed here from numbers and this panel's own words
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}
