import { type FlushReport, flush } from './flush.ts';
import { waitAfter } from './judge-reply.ts';

let failures = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let running: Promise<FlushReport> | null = null;

/** Sends now, and goes on by itself, waiting longer after each failure, while something waits. */
export function sendNow(): Promise<FlushReport> {
  clearTimeout(timer);
  running ??= flush()
    .then((report) => {
      // only a person can mend the other reasons, by signing in
      const again = report.held === 'later' || report.held === 'elsewhere';
      failures = again ? failures + 1 : 0;
      if (again)
        timer = setTimeout(() => void sendNow().catch(() => undefined), waitAfter(failures));
      return report;
    })
    .finally(() => {
      running = null;
    });
  return running;
}

let isKeeping = false;

/** Sends at once, when the network comes back, and whenever the page is looked at again. Once per page. */
export function keepSending(): void {
  if (isKeeping) return;
  isKeeping = true;
  const quietly = () => void sendNow().catch(() => undefined);
  addEventListener('online', quietly);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') quietly();
  });
  quietly();
}
