import english from '../../../../content/messages/en/signing.json' with { type: 'json' };
import { sayFrom } from '../../../words/spoken.ts';
import type { Logged, Unsent } from '../store/kept.ts';
import { allUnsent } from '../store/outbox.ts';
import { deliver } from './deliver.ts';
import type { Judged } from './judge-reply.ts';
import { takeTurn } from './one-at-a-time.ts';
import { whoIsHere } from './who-is-here.ts';

const say = sayFrom('signing', english);

/** Why something still waits. `other-person`: it was signed by somebody else than who is signed in. */
export type Held = Exclude<Judged, 'refused'> | 'other-person' | 'elsewhere';

export type FlushReport = {
  /** records the site has taken in whole in this run */
  readonly sent: readonly Logged[];
  /** records the site would not take: they are kept among the refused */
  readonly refused: readonly string[];
  /** records that still wait on this device */
  readonly left: number;
  /** the first reason for that, null when nothing waits */
  readonly held: Held | null;
  /** one sentence about it, empty when nothing waits */
  readonly message: string;
};

type Run = {
  readonly sent: Logged[];
  readonly refused: string[];
  held: { readonly why: Held; readonly message: string } | null;
};

/** Signs that nothing more will come of this run. */
const ENDS_RUN: readonly Judged[] = ['later', 'signed-out'];

function sayHeld(why: Held, count: number, message: string): string {
  if (why === 'signed-out') return say.count('sign-in-again', count);
  if (why === 'other-person') return say.count('other-person', count);
  if (why === 'password') return say.count('password-again', count);
  return message;
}

async function runOnce(): Promise<Run> {
  const run: Run = { sent: [], refused: [], held: null };
  const hold = (why: Held, message: string) => {
    run.held ??= { why, message };
  };
  const person = await whoIsHere();
  if (person === undefined) hold('later', say('not-reached'));
  if (person === null) hold('signed-out', '');
  if (person == null) return run;
  const tried = new Set<string>();
  const next = async (): Promise<Unsent | undefined> =>
    // read afresh each time: another tab may have signed in the meantime
    (await allUnsent()).find(({ signoff }) => !tried.has(signoff));
  for (let entry = await next(); entry !== undefined; entry = await next()) {
    tried.add(entry.signoff);
    if (entry.trainer !== person) {
      hold('other-person', '');
      continue;
    }
    const done = await deliver(entry);
    if (done.state === 'gone') {
      if (done.logged !== null) run.sent.push(done.logged);
    } else if (done.state === 'refused') run.refused.push(entry.signoff);
    else {
      hold(done.state, done.message);
      if (ENDS_RUN.includes(done.state)) break;
    }
  }
  return run;
}

/**
 * Sends what waits on this device, the oldest first, one tab at a time; each record only while the person who
 * signed it is signed in. Never throws for a network: what could not be sent stays.
 * @param busy what to do while another tab is sending
 */
export async function flush(busy: 'wait' | 'leave' = 'leave'): Promise<FlushReport> {
  if ((await allUnsent()).length === 0) {
    return { sent: [], refused: [], left: 0, held: null, message: '' };
  }
  const turn = await takeTurn(runOnce, busy);
  const left = (await allUnsent()).length;
  if (turn.state === 'elsewhere') {
    const held = left === 0 ? null : 'elsewhere';
    return { sent: [], refused: [], left, held, message: left === 0 ? '' : say('elsewhere') };
  }
  const { sent, refused, held } = turn.result;
  const message = held === null || left === 0 ? '' : sayHeld(held.why, left, held.message);
  return { sent, refused, left, held: left === 0 ? null : (held?.why ?? null), message };
}
