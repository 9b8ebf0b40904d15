import { useEffect, useRef } from 'preact/hooks';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { isSmall, scrollToTop } from '../work/fit-screen.ts';
import { Doorway } from './doorway.tsx';
import { Papers } from './papers.tsx';
import { StageView } from './stage-view.tsx';
import { Tray } from './tray.tsx';
import { Voice } from './voice.tsx';

export type PanelProps = { readonly attempt: Attempt; readonly desk: Desk };

export function BenchPanel({ attempt, desk }: PanelProps) {
  const phase = attempt.phase.value;
  const isOpen = phase === 'working' || phase === 'handed-in';
  const bench = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // on a phone the bench takes the whole screen, header and all
    if (isOpen && isSmall()) scrollToTop(bench.current);
  }, [isOpen]);
  useEffect(() => {
    if (phase !== 'handed-in') return;
    desk.close();
    desk.turnTo('result');
  }, [phase]);
  if (!isOpen) return <Doorway attempt={attempt} />;
  return (
    <div ref={bench} class="bench" data-folded={desk.isFolded.value ? '' : undefined}>
      <div class="bench-left">
        <StageView attempt={attempt} desk={desk} />
        <Voice desk={desk} />
        <Tray attempt={attempt} desk={desk} />
      </div>
      <Papers attempt={attempt} desk={desk} />
    </div>
  );
}
