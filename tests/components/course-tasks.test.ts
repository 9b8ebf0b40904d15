import { expect, it } from 'vitest';
import { tasksIn } from '../../src/components/lesson/tasks-in.ts';

it('finds the bench tasks a lesson leads to, each once, however they are written', () => {
  const body = `
<BenchTask id="walk-round">Look first.</BenchTask>
Text with id="no-task".
<BenchTask
  id="knife-and-guard" />
<BenchTask id="walk-round" />
<Question id="rear-teeth" />`;
  expect(tasksIn(body)).toEqual(['walk-round', 'knife-and-guard']);
  expect(tasksIn('')).toEqual([]);
});
