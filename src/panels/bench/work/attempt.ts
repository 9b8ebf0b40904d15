import { batch, computed, signal } from '@preact/signals';
import {
  type Action,
  type Bench,
  type Effect,
  type Step,
  transition,
} from '../../../bench/index.ts';
import type {
  Answer,
  Claim,
  Outcome,
  SaidBeforehand,
  Server,
  Started,
  Verdict,
} from './protocol.ts';
import type { Reading } from './say-effect.ts';
import { type Draft, EMPTY_DRAFT, type Kept, type Shelf } from './shelf.ts';
import { say } from './words.ts';

/** One thing done, what came of it, and the bench before it: the notebook is written from these. */
export type Done = {
  readonly action: Action;
  readonly effects: readonly Effect[];
  readonly before: Bench;
};

export type Phase = 'asking' | 'offering' | 'working' | 'handed-in' | 'failed';
export type Trouble = { readonly kind: 'offline' | 'refused'; readonly message: string };

/** What an action does to a bench. */
export type Doing = (bench: Bench, action: Action) => Step;

/**
 * One attempt at a task: the bench as it stands, all that was done, what was written down.
 * The bench only ever changes through `transition`; the list of actions is what the server gets.
 */
export function createAttempt(
  task: string,
  server: Server,
  shelf: Shelf,
  /** what an action does to the bench; a form lets more be done than the bench itself knows */
  step: Doing = transition,
  /** what an action does where something hangs in a rack: fetched with the bench it belongs to */
  stepBeside: ((started: Started) => Promise<Doing>) | null = null,
) {
  let doing = step;
  const phase = signal<Phase>('asking');
  const started = signal<Started | null>(null);
  const bench = signal<Bench | null>(null);
  const done = signal<readonly Done[]>([]);
  const claims = signal<readonly Claim[]>([]);
  const draft = signal<Draft>(EMPTY_DRAFT);
  /** numbers written down before anything was tried */
  const said = signal<readonly SaidBeforehand[]>([]);
  const outcome = signal<Outcome | null>(null);
  /** the last verdict asked for, and how many actions had been done then */
  const verdict = signal<{ readonly at: number; readonly given: Verdict } | null>(null);
  const trouble = signal<Trouble | null>(null);
  const busy = signal<'start' | 'verdict' | 'hand-in' | null>(null);
  /** false once the browser refused to keep the work */
  const isKept = signal(true);
  const offered = signal<Kept | null>(null);

  const actions = computed(() => done.value.map((one) => one.action));

  function keep(): void {
    if (started.value === null) return;
    isKept.value = shelf.write({
      version: 1,
      started: started.value,
      actions: actions.value,
      claims: claims.value,
      draft: draft.value,
      outcome: outcome.value,
      said: said.value,
    });
  }

  /** The answer when there is one; otherwise its trouble is shown, and all that was done stays. */
  function take<T>(answer: Answer<T>): T | null {
    busy.value = null;
    trouble.value = answer.ok ? null : { kind: answer.kind, message: answer.message };
    return answer.ok ? answer.value : null;
  }

  function open(from: Started): void {
    started.value = from;
    bench.value = from.bench;
    done.value = [];
    claims.value = [];
    draft.value = EMPTY_DRAFT;
    said.value = [];
    outcome.value = null;
    verdict.value = null;
    offered.value = null;
    phase.value = 'working';
  }

  /** Fetches what the bench needs to be worked at; says so when it does not come. */
  async function prepare(from: Started): Promise<boolean> {
    if (from.rack === undefined || stepBeside === null) return true;
    try {
      doing = await stepBeside(from);
      return true;
    } catch {
      trouble.value = { kind: 'offline', message: say('later.failed') };
      return false;
    }
  }

  async function start(): Promise<void> {
    busy.value = 'start';
    trouble.value = null;
    phase.value = 'asking';
    const answer = take(await server.start(task));
    const isReady = answer !== null && (await prepare(answer));
    batch(() => {
      if (answer === null || !isReady) {
        phase.value = 'failed';
        return;
      }
      open(answer);
      keep();
    });
  }

  /** Offers what was left on the shelf, or asks for a bench. */
  async function begin(): Promise<void> {
    const kept = shelf.read();
    if (kept === null || kept.started.task.id !== task) return start();
    offered.value = kept;
    phase.value = 'offering';
  }

  async function carryOn(): Promise<void> {
    const kept = offered.value;
    if (kept === null) return;
    if (kept.started.rack !== undefined && !(await prepare(kept.started))) {
      phase.value = 'failed';
      return;
    }
    try {
      batch(() => {
        open(kept.started);
        done.value = redo(kept.started.bench, kept.actions, doing);
        bench.value = benchAfter(kept.started.bench, done.value, doing);
        said.value = kept.said ?? [];
        claims.value = kept.claims;
        draft.value = kept.draft ?? EMPTY_DRAFT;
        outcome.value = kept.outcome ?? null;
        phase.value = outcome.value === null ? 'working' : 'handed-in';
      });
    } catch {
      // what lay there was not written by this version of the panel
      await takeFresh();
    }
  }

  /** What lay on the shelf goes only when the fresh bench has come. */
  async function takeFresh(): Promise<void> {
    offered.value = shelf.read();
    await start();
  }

  function act(action: Action): readonly Effect[] {
    const before = bench.value;
    if (before === null || phase.value !== 'working') return [];
    const next = doing(before, action);
    batch(() => {
      bench.value = next.bench;
      done.value = [...done.value, { action, effects: next.effects, before }];
    });
    keep();
    return next.effects;
  }

  /** Puts what was read off the scale with the last measuring of that kind. */
  function writeReading(
    { at, with: tool }: Pick<Reading, 'at' | 'with'>,
    read: number | null,
  ): Reading | null {
    const index = done.value.findLastIndex(
      ({ action }) => action.do === 'measure' && action.at === at && action.with === tool,
    );
    const one = done.value[index];
    if (one === undefined || one.action.do !== 'measure' || phase.value !== 'working') return null;
    const action = { ...one.action, read };
    const { effects } = transition(one.before, action);
    done.value = done.value.map((was, i) => (i === index ? { ...was, action, effects } : was));
    keep();
    return effects.find((effect): effect is Reading => effect.kind === 'reading') ?? null;
  }

  const isWritten = (claim: Claim): boolean =>
    claims.value.some((one) => one.part === claim.part && one.fault === claim.fault);

  /** false when that fault of that part stands on the list already */
  function writeDown(claim: Claim): boolean {
    if (isWritten(claim) || phase.value !== 'working') return false;
    claims.value = [...claims.value, claim];
    draft.value = EMPTY_DRAFT;
    keep();
    return true;
  }

  function takeBack(claim: Claim): void {
    claims.value = claims.value.filter((one) => one !== claim);
    keep();
  }

  function jot(next: Draft): void {
    draft.value = next;
    keep();
  }

  /** The last number for each counts; how much had been done by then goes with it. */
  function sayBeforehand(id: string, value: number): void {
    if (phase.value !== 'working') return;
    const rest = said.value.filter((one) => one.id !== id);
    said.value = [...rest, { id, value, after: done.value.length }];
    keep();
  }

  async function askHowClose(): Promise<void> {
    if (started.value === null || busy.value !== null) return;
    busy.value = 'verdict';
    const at = done.value.length;
    const given = take(await server.verdict(started.value.token, actions.value));
    if (given !== null) verdict.value = { at, given };
  }

  async function handIn(): Promise<void> {
    if (started.value === null || busy.value !== null) return;
    busy.value = 'hand-in';
    const given = take(
      await server.handIn(started.value.token, actions.value, claims.value, said.value),
    );
    if (given === null) return;
    batch(() => {
      outcome.value = given;
      phase.value = 'handed-in';
    });
    keep();
  }

  return {
    phase,
    started,
    bench,
    done,
    actions,
    claims,
    draft,
    said,
    outcome,
    verdict,
    trouble,
    busy,
    isKept,
    offered,
    begin,
    start,
    carryOn,
    takeFresh,
    act,
    writeReading,
    writeDown,
    takeBack,
    jot,
    sayBeforehand,
    askHowClose,
    handIn,
  };
}

export type Attempt = ReturnType<typeof createAttempt>;

/** Does a list of actions again from a bench. */
function redo(from: Bench, actions: readonly Action[], step: Doing): Done[] {
  let before = from;
  return actions.map((action) => {
    const next = step(before, action);
    const one = { action, effects: next.effects, before };
    before = next.bench;
    return one;
  });
}

function benchAfter(from: Bench, done: readonly Done[], step: Doing): Bench {
  const last = done[done.length - 1];
  return last === undefined ? from : step(last.before, last.action).bench;
}
