import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { TOOLS } from '../work/parts.ts';
import { say } from '../work/words.ts';
import { Group } from './group.tsx';
import { ToolIcon } from './tool-icon.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** The tools under the bench: one in the hand at a time, and a lamp. */
export function Tray({ attempt, desk }: Props) {
  const isOver = attempt.phase.value !== 'working';
  const inHand = desk.tool.value;
  return (
    <Group class="bench-tray" name={say('tray.name')}>
      {TOOLS.map((tool) => (
        <button
          key={tool}
          type="button"
          class="bench-tool"
          aria-pressed={inHand === tool}
          disabled={isOver}
          onClick={() => desk.take(tool)}
        >
          <ToolIcon tool={tool} />
          <span>{say(`tool.${tool}`)}</span>
        </button>
      ))}
      {desk.stage.value !== null && (
        <button
          type="button"
          class="bench-tool"
          aria-pressed={desk.lamp.value === 'on'}
          onClick={() => desk.switchLamp()}
        >
          <ToolIcon tool="lamp" />
          <span>{say('tool.lamp')}</span>
        </button>
      )}
    </Group>
  );
}
