import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { openBenchTask } from '../work/bench-task.ts';
import type { ShownTask } from '../work/protocol.ts';
import type { Sitting } from '../work/sitting.ts';
import { BenchTaskView } from './bench-task.tsx';
import { Door } from './door.tsx';
import { HandIn } from './hand-in.tsx';
import { Head } from './head.tsx';
import { LimitTask } from './limit-task.tsx';
import { PlanTask } from './plan-task.tsx';
import { ReactTask } from './react-task.tsx';

type Props = { readonly sitting: Sitting };

export function SittingPanel({ sitting }: Props) {
  const { phase, given, opening } = sitting;
  if (phase.value !== 'working' || given.value === null) return <Door sitting={sitting} />;
  return <Tasks key={opening.value} sitting={sitting} />;
}

/** The parts of the form, one at a time; each can be turned to at any time. */
function Tasks({ sitting }: Props) {
  const tasks = sitting.given.value?.form.tasks ?? [];
  const [at, turn] = useState(tasks[0]?.id ?? '');
  const [isHandingIn, setHandingIn] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => window.scrollTo({ top: 0 }), []);
  const task = tasks.find(({ id }) => id === at);

  function turnTo(id: string): void {
    turn(id);
    setHandingIn(false);
    requestAnimationFrame(() => heading.current?.focus());
  }

  return (
    <div class="sitting">
      <Head
        sitting={sitting}
        at={isHandingIn ? null : at}
        onTurn={turnTo}
        onHandIn={() => setHandingIn(true)}
      />
      {isHandingIn ? (
        <HandIn sitting={sitting} onBack={() => turnTo(at)} />
      ) : (
        task !== undefined && (
          <TaskView key={task.id} sitting={sitting} task={task} heading={heading} />
        )
      )}
    </div>
  );
}

type TaskProps = Props & {
  readonly task: ShownTask;
  readonly heading: { current: HTMLHeadingElement | null };
};

function TaskView({ sitting, task, heading }: TaskProps) {
  switch (task.kind) {
    case 'find':
    case 'set':
      return <AtBench sitting={sitting} task={task} heading={heading} />;
    case 'plan':
      return <PlanTask sitting={sitting} task={task} heading={heading} />;
    case 'react':
      return <ReactTask sitting={sitting} task={task} heading={heading} />;
    case 'limit':
      return <LimitTask sitting={sitting} task={task} heading={heading} />;
  }
}

function AtBench({
  sitting,
  task,
  heading,
}: TaskProps & { readonly task: Extract<ShownTask, { kind: 'find' | 'set' }> }) {
  const given = sitting.given.value;
  const open = useMemo(
    () => (given === null ? null : openBenchTask(task, given, sitting)),
    [given, task.id],
  );
  useEffect(() => () => open?.desk.close(), [open]);
  if (open === null) return null;
  return <BenchTaskView open={open} task={task} heading={heading} />;
}
