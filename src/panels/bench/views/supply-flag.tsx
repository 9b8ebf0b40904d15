import { turningOf } from '../../../bench/index.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { say } from '../work/words.ts';
import { Mark } from './mark.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** Whether the supply is on, as the handle of the isolator shows it; it opens the isolator's sheet. */
export function SupplyFlag({ attempt, desk }: Props) {
  const isolated = attempt.bench.value?.controls.isolated ?? false;
  const bench = attempt.bench.value;
  const turning = bench === null ? 'still' : turningOf(bench);
  const isInDanger = desk.isInDanger.value;
  return (
    <button
      type="button"
      class="bench-supply"
      data-danger={isInDanger ? '' : undefined}
      onClick={() => desk.open('controls')}
    >
      {isInDanger && <Mark kind="warning" />}
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false">
        <rect
          x="3"
          y="2"
          width="18"
          height="20"
          fill="none"
          stroke="currentColor"
          stroke-width="2"
        />
        <path
          d={isolated ? 'M6 12h12' : 'M12 5v14'}
          stroke="currentColor"
          stroke-width="4.5"
          fill="none"
        />
        {isolated && <circle cx="18" cy="18" r="4" fill="currentColor" />}
      </svg>
      {say(
        turning !== 'still'
          ? `supply.${turning}`
          : isInDanger
            ? 'supply.danger'
            : isolated
              ? 'supply.locked'
              : 'supply.on',
      )}
    </button>
  );
}
