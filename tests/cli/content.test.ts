import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const run = (...words: string[]) =>
  spawnSync(process.execPath, ['src/cli/run.mjs', 'content', ...words], {
    cwd: ROOT,
    encoding: 'utf8',
  });

it('says which lessons there are when asked for another', () => {
  const { status, stderr } = run('no-such-lesson');
  expect(status).toBe(2);
  expect(stderr).toMatch(/^There is no lesson no-such-lesson; there are .*riving-knife.*\.\n$/);
});

it('takes one lesson at a time', () => {
  expect(run('riving-knife', 'guards')).toMatchObject({
    status: 2,
    stderr: 'Usage: npm run content, or npm run content -- LESSON for one lesson.\n',
  });
});

it('says one problem a line, with file and line, counts them, and exits by the count', () => {
  const { status, stdout } = run();
  const lines = stdout.trimEnd().split('\n');
  const last = lines.pop();
  const problems = lines.filter((line) => !line.includes(': note: '));
  expect(last).toBe(
    `Lessons: ${/\d+/.exec(last ?? '')?.[0]}. Problems: ${problems.length}. Notes: ${lines.length - problems.length}.`,
  );
  for (const line of lines) expect(line).toMatch(/^content\/[^:]+:\d+: .+\.$/);
  expect(status).toBe(problems.length === 0 ? 0 : 1);
});
