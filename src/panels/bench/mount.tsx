import { render } from 'preact';
import { BenchPanel } from './views/bench-panel.tsx';
import { createAttempt } from './work/attempt.ts';
import { createDesk } from './work/desk.ts';
import { fitScreen } from './work/fit-screen.ts';
import { followUnit } from './work/follow-unit.ts';
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
    );
    const desk = createDesk(attempt);
    fitScreen(root);
    root.replaceChildren();
    render(<BenchPanel attempt={attempt} desk={desk} />, root);
    void attempt.begin();
  }
}
