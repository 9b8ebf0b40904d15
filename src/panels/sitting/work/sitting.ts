import { batch, computed, signal } from '@preact/signals';
import type { Claim } from '../../bench/work/protocol.ts';
import { chooseWork, type Shelf } from './device-copy.ts';
import type {
  EndedSitting,
  FormAnswer,
  SavedSitting,
  SittingCard,
  SittingGiven,
  SittingOpened,
  SittingServer,
  TimeChoice,
  Work,
} from './protocol.ts';
import { say } from './words.ts';

export type Phase =
  | 'asking'
  | 'ready'
  | 'held'
  | 'other'
  | 'failed'
  | 'working'
  | 'paused'
  | 'taken'
  | 'ended';

/** ms between something done and sending it, between words when nothing is done, and between tries. */
const SOON = 1_200;
const HEARTBEAT = 25_000;
const RETRY = 5_000;

type Parts = {
  readonly blueprint: string;
  readonly hold: string;
  readonly server: SittingServer;
  readonly shelf: Shelf;
  /** ms that only ever go forward: the device's clock may be set while somebody sits */
  readonly now: () => number;
  readonly wait: (ms: number, then: () => void) => void;
};

/**
 * One form being sat in this tab: what was done lies on the device at once and goes to the server as
 * soon as the net allows. Nothing here knows what is right.
 */
export function createSitting({ blueprint, hold, server, shelf, now, wait }: Parts) {
  const phase = signal<Phase>('asking');
  const card = signal<SittingCard | null>(null);
  const other = signal<{ readonly blueprint: string; readonly title: string } | null>(null);
  const given = signal<SittingGiven | null>(null);
  const work = signal<Work>({});
  const trouble = signal<string | null>(null);
  /** said once, at the top: work put aside, more time given */
  const notice = signal<string | null>(null);
  const ended = signal<EndedSitting | null>(null);
  const isOnline = signal(true);
  const isKept = signal(true);
  const isSaved = signal(true);
  const isBusy = signal(false);
  /** ms left and when that was said, by `now`; null where there is no limit */
  const told = signal<{ readonly left: number | null; readonly at: number }>({ left: null, at: 0 });
  /** goes up each time a form is opened: what shows it is made anew */
  const opening = signal(0);
  const drafts = new Map<string, Claim>();
  let revision = 0;
  let sent: Work | null = null;
  let spokeAt = 0;
  let isSending = false;
  let isWaiting = false;

  const isOpen = computed(() => phase.value === 'working' || phase.value === 'paused');

  function keep(): void {
    const attempt = given.value?.attempt;
    if (attempt === undefined) return;
    isKept.value = shelf.write({
      attempt,
      revision,
      work: work.value,
      sent,
      drafts: Object.fromEntries(drafts),
    });
  }

  function tellTime(left: number | null): void {
    told.value = { left, at: now() };
    spokeAt = now();
  }

  function takeOpened(opened: SittingOpened): void {
    card.value = opened.card;
    trouble.value = null;
    if (opened.state === 'other') other.value = opened.other;
    if (opened.state !== 'open') {
      phase.value = opened.state;
      return;
    }
    const from = opened.given;
    const copy = shelf.read(from.attempt);
    const chosen = chooseWork(from, copy);
    batch(() => {
      given.value = from;
      work.value = chosen.work;
      revision = from.revision;
      for (const [task, draft] of Object.entries(copy?.drafts ?? {})) drafts.set(task, draft);
      notice.value = chosen.aside === 0 ? null : say('notice.aside', { count: chosen.aside });
      tellTime(from.time.left);
      opening.value += 1;
      phase.value = 'working';
    });
    keep();
    if (chosen.work !== from.work) soon();
    beat();
  }

  async function open(
    how: 'look' | 'begin' | 'take-over',
    time: TimeChoice = 'as-set',
  ): Promise<void> {
    if (isBusy.value) return;
    isBusy.value = true;
    const answer = await server.open({ blueprint, hold, how, time });
    isBusy.value = false;
    if (answer.ok) return takeOpened(answer.value);
    batch(() => {
      trouble.value = answer.message;
      if (!isOpen.value) phase.value = 'failed';
    });
  }

  function change(task: string, answer: FormAnswer): void {
    if (phase.value !== 'working') return;
    work.value = { ...work.value, [task]: answer };
    isSaved.value = false;
    keep();
    soon();
  }

  function jot(task: string, draft: Claim): void {
    drafts.set(task, draft);
    keep();
  }

  function soon(ms: number = SOON): void {
    if (isWaiting) return;
    isWaiting = true;
    wait(ms, () => {
      isWaiting = false;
      void send();
    });
  }

  /** A word now and then while nothing is done, so that the time counts and a lost net shows. */
  function beat(): void {
    const mine = opening.value;
    wait(HEARTBEAT, () => {
      if (mine !== opening.value || phase.value !== 'working') return;
      if (now() - spokeAt >= HEARTBEAT) void send();
      beat();
    });
  }

  function takeSaved(saved: SavedSitting, what: Work): void {
    if (saved.state === 'ended') {
      end(saved);
      return;
    }
    revision = saved.revision;
    isOnline.value = true;
    isSaved.value = work.value === what;
    tellTime(saved.time.left);
    keep();
    if (!isSaved.value) soon();
  }

  /** Tells the server all there is. While it is silent, all stays here and is sent again. */
  async function send(): Promise<void> {
    const attempt = given.value?.attempt;
    if (attempt === undefined || !isOpen.value || isSending) return;
    isSending = true;
    const what = work.value;
    sent = what;
    keep();
    const pause = phase.value === 'paused';
    const answer = await server.save({ attempt, hold, revision, work: what, pause });
    isSending = false;
    if (!isOpen.value) return;
    if (answer.ok) return takeSaved(answer.value, what);
    takeRefusal(answer);
  }

  function takeRefusal(answer: {
    readonly kind: string;
    readonly path?: string;
    readonly message: string;
  }): void {
    if (answer.kind === 'offline') {
      isOnline.value = false;
      soon(RETRY);
    } else if (answer.path === 'hold') phase.value = 'taken';
    else if (answer.path === 'revision' || answer.path === 'work') void open('look');
    else {
      trouble.value = answer.message;
      soon(HEARTBEAT);
    }
  }

  async function askMore(): Promise<void> {
    const attempt = given.value?.attempt;
    if (attempt === undefined) return;
    const answer = await server.more({ attempt, hold });
    if (!answer.ok) {
      trouble.value = answer.message;
      return takeRefusal(answer);
    }
    if (answer.value.state === 'ended') return end(answer.value);
    tellTime(answer.value.time.left);
    notice.value = say('notice.more');
  }

  async function handIn(): Promise<void> {
    const attempt = given.value?.attempt;
    if (attempt === undefined || isBusy.value) return;
    isBusy.value = true;
    trouble.value = null;
    const answer = await server.handIn({ attempt, hold, revision, work: work.value });
    isBusy.value = false;
    if (answer.ok) return end(answer.value);
    trouble.value = answer.message;
    takeRefusal(answer);
  }

  function end(how: EndedSitting): void {
    shelf.clear();
    batch(() => {
      ended.value = how;
      phase.value = 'ended';
    });
  }

  function pause(): void {
    phase.value = 'paused';
    void send();
  }

  function goOn(): void {
    phase.value = 'working';
    opening.value += 1;
    beat();
    void send();
  }

  /** ms left at this moment, by a clock nobody can set; null where there is no limit. */
  function leftNow(): number | null {
    const { left, at } = told.value;
    if (left === null) return null;
    return Math.max(0, phase.value === 'paused' ? left : left - (now() - at));
  }

  return {
    phase,
    card,
    other,
    given,
    work,
    trouble,
    notice,
    ended,
    isOnline,
    isKept,
    isSaved,
    isBusy,
    told,
    opening,
    drafts,
    open,
    change,
    jot,
    send,
    askMore,
    handIn,
    pause,
    goOn,
    leftNow,
  };
}

export type Sitting = ReturnType<typeof createSitting>;
