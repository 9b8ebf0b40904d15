import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { Doorway } from './doorway.tsx';
import { Papers } from './papers.tsx';
import { StageView } from './stage-view.tsx';
import { Tray } from './tray.tsx';
import { Voice } from './voice.tsx';

export type PanelProps = { readonly attempt: Attempt; readonly desk: Desk };

export function BenchPanel({ attempt, desk }: PanelProps) {
  const phase = attempt.phase.value;
  if (phase !== 'working' && phase !== 'handed-in') return <Doorway attempt={attempt} />;
  return (
    <div class="bench" data-folded={desk.isFolded.value ? '' : undefined}>
      <div class="bench-left">
        <StageView attempt={attempt} desk={desk} />
        <Voice desk={desk} />
        <Tray attempt={attempt} desk={desk} />
      </div>
      <Papers attempt={attempt} desk={desk} />
    </div>
  );
}
