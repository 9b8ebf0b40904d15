import { computed, signal } from '@preact/signals';
import {
  type Bench,
  bladeFrame,
  cutShort,
  leadAt,
  type TrialCut,
  trialCut,
} from '../../../bench/index.ts';
import type { Attempt, Done } from './attempt.ts';
import { sayCut, sayInShort, sayMoment } from './cut-words.ts';
import type { Desk, ShownCut } from './desk.ts';
import { prefersStillness } from './screen.ts';

/** A cut under way: `s` seconds into it, by the saw's own clock. */
export type Run = {
  readonly bench: Bench;
  readonly cut: TrialCut;
  readonly s: number;
  readonly isHeld: boolean;
};

/** s that the flight of a thrown piece is drawn out to, so that an eye can follow it. */
const FLIGHT_SHOWN = 2;
/** With reduced motion the feed is shown in so many steps, ms apart. */
const STEPS = 10;
const STEP_MS = 700;
/** s at most between two pictures: a page that was hidden goes on where it was. */
const LONGEST = 0.5;
/** ms at least between two line drawings: each is drawn anew, where the picture only moves its parts. */
const DRAWN_EACH = 80;

/** How many times slower than life the flight is shown. */
export function slowedBy({ thrown, lasts }: TrialCut): number {
  return thrown === null ? 1 : Math.max(1, Math.round(FLIGHT_SHOWN / (lasts - thrown.at)));
}

/** The trial cut at one bench: plays what the engine worked out, and enters it when it is over. */
export function createCutRun(attempt: Attempt, desk: Desk) {
  const run = signal<Run | null>(null);
  let frame = 0;
  let drawn = 0;
  let step: ReturnType<typeof setTimeout> | undefined;

  /** The last cut made at this bench, from what was done. */
  const last = computed(() => {
    const made = attempt.done.value.findLast((one) => cutOf(one) !== null);
    const cut = made === undefined ? null : cutOf(made);
    return made === undefined || cut === null ? null : { bench: made.before, cut };
  });

  /** The saw has cut since it was last started: what comes next is to stop it. */
  const hasCut = computed(() => {
    const done = attempt.done.value;
    const started = done.findLastIndex((one) => one.action.do === 'start');
    return done.slice(started + 1).some((one) => cutOf(one) !== null);
  });

  function begin(): void {
    const bench = attempt.bench.value;
    if (bench === null || run.value !== null) return;
    const cut = bench.controls.turning === 'running' ? trialCut(bench) : null;
    // refused, and told why
    if (cut === null) {
      desk.act({ do: 'feed', stopped: null });
      return;
    }
    desk.feeding.value = { stop: () => end(run.value?.s ?? null), finish: () => end(null) };
    addEventListener('pagehide', seeOut);
    run.value = { bench, cut, s: 0, isHeld: false };
    desk.speak(sayCut('starts'));
    show(bench, cut, 0);
    goOn();
  }

  const seeOut = (): void => end(null);

  function goOn(): void {
    if (run.value === null) return;
    run.value = { ...run.value, isHeld: false };
    if (prefersStillness()) {
      stepOn();
      return;
    }
    let before = performance.now();
    const tick = (now: number): void => {
      const at = run.value;
      if (at === null || at.isHeld) return;
      const passed = Math.min(LONGEST, Math.max(0, now - before) / 1000);
      before = now;
      const isFlying = at.cut.thrown !== null && at.s >= at.cut.thrown.at;
      moveTo(at.s + (isFlying ? passed / slowedBy(at.cut) : passed));
      frame = requestAnimationFrame(tick);
    };
    frame = requestAnimationFrame(tick);
  }

  function stepOn(): void {
    step = setTimeout(() => {
      const at = run.value;
      if (at === null || at.isHeld) return;
      const fed = at.cut.thrown?.at ?? at.cut.lasts;
      moveTo(at.s < fed ? Math.min(fed, at.s + fed / STEPS) : at.cut.lasts);
      stepOn();
    }, STEP_MS);
  }

  function moveTo(s: number): void {
    const at = run.value;
    if (at === null) return;
    const { bench, cut } = at;
    if (s >= cut.lasts) {
      end(null);
      return;
    }
    // the flight begins at its beginning, whatever the frame before it
    const flies = cut.thrown !== null && at.s < cut.thrown.at && s > cut.thrown.at;
    const now = flies ? (cut.thrown?.at ?? s) : s;
    const come = cut.moments.filter((one) => one.at > at.s && one.at <= now);
    run.value = { ...at, s: now };
    const isMoment = come.length > 0 || flies;
    if (isMoment || isPicture() || performance.now() - drawn >= DRAWN_EACH) show(bench, cut, now);
    if (come.length > 0) desk.speak(come.map((one) => sayMoment(one, cut)).join(' '));
  }

  const isPicture = () => desk.stage.peek() !== null && desk.view.peek() === 'picture';

  function hold(): void {
    if (run.value !== null) run.value = { ...run.value, isHeld: true };
    halt();
  }

  function halt(): void {
    cancelAnimationFrame(frame);
    clearTimeout(step);
  }

  /** Over: by itself, by stop pressed `stopped` seconds into it, or seen out at once. */
  function end(stopped: number | null): void {
    const at = run.value;
    if (at === null) return;
    halt();
    removeEventListener('pagehide', seeOut);
    const cut = cutShort(at.cut, stopped);
    desk.feeding.value = null;
    run.value = null;
    desk.act({ do: 'feed', stopped: cut === at.cut ? null : stopped });
    show(at.bench, cut, cut.lasts);
    desk.speak(sayInShort(cut), cut.outcome === 'thrown' ? 'danger' : 'plain');
  }

  function show(bench: Bench, cut: TrialCut, s: number): void {
    drawn = performance.now();
    const { thrown } = cut;
    const isThrown = thrown !== null && s >= thrown.at;
    const lead = leadAt(cut, bench, s);
    const left = bladeFrame(bench).halfAtTable + bench.job.stock.length - lead;
    const shown: ShownCut = {
      lead,
      stick: !isThrown && left <= (bench.people.pushStick?.usedForLast ?? Number.NEGATIVE_INFINITY),
      thrown: isThrown,
      strip: isThrown ? thrown.strip : null,
    };
    // from where the strip on the floor is seen, and who stands in it
    if (isThrown && desk.shownCut.peek()?.thrown !== true) desk.stage.peek()?.goTo('people');
    desk.shownCut.value = shown;
  }

  return { run, last, hasCut, begin, hold, goOn, finish: seeOut };
}

export type CutRun = ReturnType<typeof createCutRun>;

/** The cut that something done was, as it came out; null when it was none. */
export function cutOf({ before, effects }: Done): TrialCut | null {
  const fed = effects.find((effect) => effect.kind === 'fed');
  const cut = fed === undefined ? null : trialCut(before);
  return fed === undefined || cut === null ? null : cutShort(cut, fed.stopped);
}

const runs = new WeakMap<Desk, CutRun>();

/** The run of a desk, the same each time: a cut goes on while its paper is turned. */
export function cutRunOf(attempt: Attempt, desk: Desk): CutRun {
  const made = runs.get(desk) ?? createCutRun(attempt, desk);
  runs.set(desk, made);
  return made;
}
