import { render } from 'preact';
import { transition } from '../../bench/index.ts';
import { BenchPanel } from './views/bench-panel.tsx';
import { createAttempt, type Doing } from './work/attempt.ts';
import { createDesk, type Desk } from './work/desk.ts';
import { fitScreen } from './work/fit-screen.ts';
import { followUnit } from './work/follow-unit.ts';
import type { Started } from './work/protocol.ts';
import { connect } from './work/server.ts';
import { shelfIn } from './work/shelf.ts';

/** Puts the panel into every `[data-panel="bench"]` of the page; `data-task` names the task. */
export function mountBench(): void {
  followUnit();
  for (const root of document.querySelectorAll<HTMLElement>('[data-panel="bench"]')) {
    const task = root.dataset['task'];
    if (task === undefined) continue;
    const attempt = createAttempt(
      task,
      connect((path, request) => fetch(path, request)),
      shelfIn(() => localStorage, task),
      transition,
      (started) => hangRackOn(desk, started),
    );
    const desk: Desk = createDesk(attempt);
    desk.kinds.value = root.dataset['kinds'] ?? '';
    fitScreen(root);
    root.replaceChildren();
    render(<BenchPanel attempt={attempt} desk={desk} />, root);
    void attempt.begin();
  }
}

/** Puts the rack of a task beside its bench; what it takes is fetched only where there is one. */
async function hangRackOn(desk: Desk, { rack, bench }: Started): Promise<Doing> {
  if (rack === undefined) return transition;
  const { rackStep } = await import('../rack/rack-step.ts');
  const hung = rackStep({ ...rack, bench });
  desk.rack.value = hung;
  return hung.step;
}
