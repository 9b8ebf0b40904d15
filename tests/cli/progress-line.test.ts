import { expect, it } from 'vitest';
import { makeProgressLine } from '../../src/cli/progress-line.ts';

/** A terminal that keeps what was written to it, or a file that is none. */
function makeTerminal(isTTY: boolean) {
  const written: string[] = [];
  const write = (text: string) => written.push(text) > 0;
  return { written, stream: { isTTY, write } as unknown as NodeJS.WriteStream };
}

it('says on one line of a terminal how far a step is, and takes the line away', () => {
  const { stream, written } = makeTerminal(true);
  const { clear, tell } = makeProgressLine(stream);
  tell({ step: 'audit', done: 1_000, whole: 990_042 });
  // a thousand more in the same moment are not worth a line
  tell({ step: 'audit', done: 2_000, whole: 990_042 });
  clear();
  expect(written).toEqual(['\r\u001b[KAuditing the log: 1000 of 990042 events ', '\r\u001b[K']);
});

it.each([
  ['copy', null, null, 'Copying the store '],
  ['copy', 1_234_567, null, 'Copying the store: 1.23 MB '],
  ['digests', 1_000, 2_000, 'Reading it back: 1 kB of 2 kB '],
] as const)('says of %s with %s of %s done: %s', (step, done, whole, line) => {
  const { stream, written } = makeTerminal(true);
  makeProgressLine(stream).tell({ step, done, whole });
  expect(written).toEqual([`\r\u001b[K${line}`]);
});

it('writes nothing where nobody looks on', () => {
  const { stream, written } = makeTerminal(false);
  const { clear, show, tell } = makeProgressLine(stream);
  tell({ step: 'copy', done: 1, whole: 2 });
  show('Starting');
  clear();
  expect(written).toEqual([]);
});
