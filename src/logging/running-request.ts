import { AsyncLocalStorage } from 'node:async_hooks';
import { randomBytes } from 'node:crypto';
import { ofProcess } from './of-process.ts';

/** The request that is being answered, as the log may know it: nothing of who asks or for whom. */
export type RunningRequest = {
  /** to quote to whoever reads the log; made here, never taken from a header */
  readonly id: string;
  readonly method: string;
  /** pattern of the address, such as /people/[id]; null while no page is known for it */
  route: string | null;
  /** what the metrics sum it up under, where that is not the pattern: hundreds of built pages are one line */
  group: string | null;
};

const requests = ofProcess('requests', () => new AsyncLocalStorage<RunningRequest>());

/** Letters and digits that cannot be taken for each other when read out. */
const SIGNS = '23456789abcdefghjkmnpqrstvwxyz';

/** Ten signs in two groups, some 49 bits: short enough to be read out over the telephone. */
export function makeRequestId(bytes: Uint8Array = randomBytes(10)): string {
  const signs = [...bytes.subarray(0, 10)].map((byte) => SIGNS[byte % SIGNS.length]);
  return `${signs.slice(0, 5).join('')}-${signs.slice(5).join('')}`;
}

export function duringRequest<Result>(request: RunningRequest, work: () => Result): Result {
  return requests.run(request, work);
}

/** The request this code runs for, or null outside of one. */
export const runningRequest = (): RunningRequest | null => requests.getStore() ?? null;

/** Notes which page answers, by its pattern, and what it is summed up under. */
export function noteRoute(pattern: string, group: string | null = null): void {
  const request = requests.getStore();
  if (request === undefined) return;
  request.route = pattern;
  request.group = group;
}
