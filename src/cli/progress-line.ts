import type { Tell } from '../store/backup/index.ts';
import { sayBytes } from './backup-arguments.ts';

const STEPS = {
  copy: 'Copying the store',
  digests: 'Reading it back',
  load: 'Putting it in its place',
  audit: 'Auditing the log',
} as const;

/** Between two lines, ms: a terminal need not be written to more often. */
const PAUSE_MS = 200;

/** A line on the standard error of a terminal that says how far something is; nothing where nobody looks on. */
export function makeProgressLine(terminal: NodeJS.WriteStream = process.stderr) {
  const isShown = terminal.isTTY === true;
  let writtenAt = 0;
  const show = (text: string) => {
    if (isShown) terminal.write(`\r\u001b[K${text} `);
  };
  const tell: Tell = ({ step, done, whole }) => {
    const now = performance.now();
    if (!isShown || now - writtenAt < PAUSE_MS) return;
    writtenAt = now;
    const say = step === 'audit' ? String : sayBytes;
    const unit = step === 'audit' ? ' events' : '';
    const much = done === null ? '' : `: ${say(done)}`;
    const of = done === null || whole === null ? '' : ` of ${say(whole)}${unit}`;
    show(`${STEPS[step]}${much}${of}`);
  };
  return {
    tell,
    /** Says what is done now, where nobody knows how much of it there is. */
    show,
    /** Takes the line away, before anything else is written. */
    clear: () => {
      if (isShown) terminal.write('\r\u001b[K');
    },
  };
}
