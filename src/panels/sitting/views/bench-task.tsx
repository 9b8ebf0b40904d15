import { BenchPanel } from '../../bench/views/bench-panel.tsx';
import type { BenchTask } from '../work/bench-task.ts';
import type { TaskOf } from '../work/protocol.ts';
import { say } from '../work/words.ts';

type Props = {
  readonly open: BenchTask;
  readonly task: TaskOf<'find'> | TaskOf<'set'>;
  readonly heading: { current: HTMLHeadingElement | null };
};

/** A bench of the form: the same bench, tools and papers as in practice, and the rack where one is set. */
export function BenchTaskView({ open, task, heading }: Props) {
  const { attempt, desk } = open;
  return (
    <div class="sitting-bench" data-panel="bench">
      <h2 class="unseen" ref={heading} tabIndex={-1}>
        {say(`task.${task.kind}`)}
      </h2>
      <BenchPanel attempt={attempt} desk={desk} />
    </div>
  );
}
