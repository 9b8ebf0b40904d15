import type { Bench } from '../../src/bench/index.ts';
import type { Answer, Outcome, Server, Started } from '../../src/panels/bench/work/protocol.ts';
import type { Kept, Shelf } from '../../src/panels/bench/work/shelf.ts';
import { makeBench } from '../helpers/bench.ts';

/** What the server gives out for a task, around any bench. */
export function makeStarted(over: { bench?: Bench; mode?: 'practice' | 'test' } = {}): Started {
  return {
    token: 'a-token',
    attempt: null,
    bench: over.bench ?? makeBench(),
    task: {
      id: 'walk-round',
      title: 'Walk round',
      brief: 'Look at everything.',
      mode: over.mode ?? 'practice',
      faults: true,
      settings: ['knife.gapAtTable'],
      limits: ['gb'],
      heldTo: ['Great Britain'],
    },
    choices: {
      parts: [{ part: 'blade', title: 'Blade' }],
      faults: [{ id: 'cracked-gullet', part: 'blade', title: 'Cracked gullet' }],
      remedies: [{ id: 'take-out-of-service', title: 'Take it out of service' }],
    },
  };
}

export const OUTCOME: Outcome = {
  attempt: null,
  stored: false,
  found: [],
  missed: [],
  wrong: [],
  left: [],
  settings: [],
  readings: [],
  choice: null,
  predictions: [],
  cut: null,
  critical: [],
  score: 50,
  fit: false,
};

/** A server that answers from a list, and writes down what it was sent. */
export function makeServer(started: Started = makeStarted()) {
  const sent: { what: string; body: unknown[] }[] = [];
  const failures: Answer<never>[] = [];
  const answer = async <T>(what: string, body: unknown[], value: T): Promise<Answer<T>> => {
    sent.push({ what, body });
    return failures.shift() ?? { ok: true, value };
  };
  const server: Server = {
    start: (task) => answer('start', [task], started),
    verdict: (token, actions) => answer('verdict', [token, actions], { settings: [] }),
    handIn: (token, actions, claims, said) =>
      answer('hand-in', [token, actions, claims, said], OUTCOME),
  };
  return { server, sent, failNext: (failure: Answer<never>) => failures.push(failure) };
}

export const OFFLINE: Answer<never> = { ok: false, kind: 'offline', message: 'No answer.' };
export const REFUSED: Answer<never> = { ok: false, kind: 'refused', message: 'actions[0] is odd.' };

/** A shelf in memory that holds JSON, as the browser's does. */
export function makeShelf(): Shelf & { text: string | null; isFull: boolean } {
  return {
    text: null,
    isFull: false,
    read() {
      return this.text === null ? null : (JSON.parse(this.text) as Kept);
    },
    write(kept) {
      if (this.isFull) return false;
      this.text = JSON.stringify(kept);
      return true;
    },
  };
}
