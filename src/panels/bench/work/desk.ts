import { batch, computed, effect, signal } from '@preact/signals';
import type { Move } from '../../../assessment/index.ts';
import type {
  Action,
  Bench,
  Effect,
  InstrumentId,
  MeasuringPointId,
  Part,
} from '../../../bench/index.ts';
import { isDanger, isTrial, isTurning } from '../../../bench/index.ts';
import type { Stage } from '../../../scene/index.ts';
import type { RackOnDesk } from '../../rack/rack-step.ts';
import type { Attempt } from './attempt.ts';
import { isClamped, isPart, placesOn, type Tool } from './parts.ts';
import { readingsOf } from './readings.ts';
import { sayAction } from './say-action.ts';
import { hidesReadings, type Reading, sayEffect } from './say-effect.ts';
import { say } from './words.ts';

export type Paper =
  | 'result'
  | 'job'
  | 'beforehand'
  | 'parts'
  | 'faults'
  | 'rack'
  | 'cut'
  | 'notebook';
export type View = 'picture' | 'side' | 'end' | 'plan' | 'knife' | 'teeth';
/** The stock on its way through: mm of x of its leading end, and the strip to keep clear, mm of z. */
export type ShownCut = {
  readonly lead: number;
  /** its trailing end is pushed with the stick */
  readonly stick: boolean;
  readonly thrown: boolean;
  readonly strip: { readonly from: number; readonly to: number } | null;
};
/** A trial cut under way. */
export type Feeding = { readonly stop: () => void; readonly finish: () => void };
export type Said = { readonly text: string; readonly tone: 'plain' | 'danger' };

const AT_THE_SAW: ReadonlySet<Action['do']> = new Set(['start', 'stop', 'wait', 'feed']);

/** What lies open on the desk beside the bench, and what is in the hand. Nothing here is graded. */
export function createDesk(attempt: Attempt) {
  const paper = signal<Paper>('job');
  const part = signal<Part | null>(null);
  /** on a phone the papers fold down to their tabs */
  const isFolded = signal(false);
  const tool = signal<Tool | null>(null);
  const lamp = signal<'on' | 'off'>('off');
  const reading = signal<{ readonly reading: Reading; readonly bench: Bench } | null>(null);
  const said = signal<Said>({ text: '', tone: 'plain' });
  const view = signal<View>('picture');
  const stage = signal<Stage | null>(null);
  /** why there is no picture, when there is none */
  const noPicture = signal<string | null>(null);
  /** teeth the blade has been turned by hand, as it runs */
  const turned = signal(0);
  /** the part under the pointer in the picture */
  const pointed = signal<Part | null>(null);
  const shownCut = signal<ShownCut | null>(null);
  const feeding = signal<Feeding | null>(null);
  /** what hangs beside the bench to choose from */
  const rack = signal<RackOnDesk | null>(null);
  /** what kinds of work the task asks for, in words */
  const kinds = signal('');
  const isTest = computed(() => attempt.started.value?.task.mode === 'test');
  effect(() => {
    // where places are to be read, the scale is read in practice too
    const isRead = isTest.value || attempt.started.value?.task.readings !== undefined;
    hidesReadings.value = isRead && attempt.phase.value === 'working';
  });
  const readings = computed(() => readingsOf(attempt.done.value));

  function speak(text: string, tone: Said['tone'] = 'plain'): void {
    // the same words again must reach a screen reader again: a no-break space makes them new
    const isRepeat = said.value.text === text;
    said.value = { text: isRepeat ? `${text}\u00a0` : text, tone };
  }

  const isPractice = () => attempt.started.value?.task.mode === 'practice';

  /**
   * In practice: hands have been at the blade since the supply was last switched on. Told at once
   * and once, not with every touch; in a test it is told with the result.
   */
  const isInDanger = computed(() => {
    const bench = attempt.bench.value;
    if (!isPractice() || bench === null || bench.controls.isolated) return false;
    const since = attempt.done.value.findLastIndex((one) => one.action.do === 'reconnect');
    return attempt.done.value
      .slice(since + 1)
      .some((one) => one.effects.some((effect) => effect.kind === 'not-isolated'));
  });

  /** Something has been moved, fitted or started: nothing can be said beforehand any more. */
  const hasTried = computed(() => attempt.actions.value.some(isTrial));

  /** What is to be said beforehand is said first; says so where it is not. */
  function mayTry(move: Move): boolean {
    const asked = attempt.started.value?.task.predict ?? [];
    const isSaid = ({ id }: { readonly id: string }) =>
      attempt.said.value.some((one) => one.id === id);
    if (!isTrial(move) || hasTried.value || asked.every(isSaid)) return true;
    turnTo('beforehand');
    speak(say('beforehand.first'));
    return false;
  }

  function act(action: Action): void {
    const before = attempt.bench.value;
    if (before === null || !mayTry(action)) return;
    if (feeding.value !== null && action.do !== 'feed') {
      // a stop that does nothing is pressed in vain, and the cut goes on
      if (action.do !== 'stop') {
        speak(say('cut.hands-full'));
        return;
      }
      if (before.controls.stopWorks !== false) {
        feeding.value.stop();
        return;
      }
    }
    const wasInDanger = isInDanger.value;
    const effects = attempt.act(action);
    show(effects, action, before);
    const danger = effects.find(isDanger);
    const came =
      effects
        .filter((effect) => effect !== danger)
        .map((effect) => sayEffect(effect, before))
        .filter((text) => text !== '')
        .join(' ') || sayAction(action, attempt.bench.value);
    // a turning blade is told every time
    const isNew =
      danger?.kind === 'while-turning' ? isPractice() : isInDanger.value && !wasInDanger;
    if (danger !== undefined && isNew) {
      speak(`${sayEffect(danger, before)} ${came}`, 'danger');
    } else if (came !== '') speak(came);
  }

  /** Lays the instrument in the picture, or takes it away once its place may have moved. */
  function show(effects: readonly Effect[], action: Action, bench: Bench): void {
    const taken = effects.find((effect) => effect.kind === 'reading');
    // the work is taken back out before anything is touched
    if (!AT_THE_SAW.has(action.do)) shownCut.value = null;
    if (taken !== undefined) reading.value = { reading: taken, bench };
    else if (action.do === 'set' || action.do === 'unlock' || action.do === 'lock') {
      reading.value = null;
    }
  }

  /** Opens a part's sheet. Turning to a part is looking at it, and is written in the attempt. */
  function open(which: Part): void {
    const isNew = part.value !== which;
    batch(() => {
      part.value = which;
      paper.value = 'parts';
      isFolded.value = false;
      if (isNew) reading.value = null;
    });
    stage.value?.highlight(which);
    if (isNew) attempt.act({ do: 'look', at: which });
  }

  function close(): void {
    part.value = null;
    stage.value?.highlight(null);
  }

  /** Clears the desk for another bench. */
  function putAway(): void {
    close();
    batch(() => {
      paper.value = 'job';
      tool.value = null;
      reading.value = null;
      turned.value = 0;
      shownCut.value = null;
      said.value = { text: '', tone: 'plain' };
    });
  }

  function turnTo(which: Paper): void {
    batch(() => {
      paper.value = which;
      isFolded.value = false;
    });
  }

  function lay(instrument: InstrumentId, at: MeasuringPointId): void {
    act({ do: 'measure', with: instrument, at });
  }

  /** Writes down what was read off the scale that lies open; null says that the tool takes nothing. */
  function writeReading(mm: number | null): Reading | null {
    const open = reading.value;
    if (open === null) return null;
    const { at, with: tool } = open.reading;
    const taken = attempt.writeReading({ at, with: tool }, mm);
    if (taken !== null) reading.value = { ...open, reading: taken };
    return taken;
  }

  /** A part touched in the picture: what the tool in the hand does there, when it can do one thing. */
  function pick(which: string, tooth?: number): void {
    if (!isPart(which)) return;
    open(which);
    const teeth = attempt.bench.value?.blade.teeth ?? 1;
    if (tooth !== undefined && tool.value === null) {
      speak(say('pick.tooth', { tooth: ((((tooth + turned.value) % teeth) + teeth) % teeth) + 1 }));
    }
    if (attempt.phase.value !== 'working' || tool.value === null) return;
    if (tool.value === 'hand') {
      if (isClamped(which)) act({ do: 'try', part: which });
      return;
    }
    const places = placesOn(which, tool.value);
    const [only] = places;
    if (only !== undefined && places.length === 1) lay(tool.value, only);
  }

  function take(which: Tool): void {
    batch(() => {
      tool.value = tool.value === which ? null : which;
      reading.value = null;
      if (tool.value === null) return;
      paper.value = 'parts';
      isFolded.value = false;
    });
  }

  function switchLamp(): void {
    lamp.value = lamp.value === 'on' ? 'off' : 'on';
    stage.value?.setLamp(lamp.value);
    speak(say(lamp.value === 'on' ? 'lamp.on' : 'lamp.off'));
  }

  /** Nobody turns a blade by hand with the supply on, or while it runs down; says so when not. */
  function mayTurn(): boolean {
    const bench = attempt.bench.value;
    if (bench?.controls.isolated === true && !isTurning(bench)) return true;
    speak(say(bench?.controls.isolated ? 'blade.turning' : 'blade.not-locked'));
    return false;
  }

  function turnBlade(teeth: number): void {
    if (!mayTurn()) return;
    stage.value?.turnBlade(teeth);
    wasTurned(teeth);
  }

  /** The blade was turned by whole teeth, positive as it runs. */
  function wasTurned(teeth: number): void {
    turned.value += teeth;
    const count = Math.abs(teeth);
    speak(count === 1 ? say('blade.turned') : say('blade.turned-many', { count }));
  }

  return {
    paper,
    part,
    isFolded,
    tool,
    lamp,
    reading,
    said,
    view,
    stage,
    noPicture,
    turned,
    pointed,
    readings,
    shownCut,
    feeding,
    rack,
    kinds,
    hasTried,
    mayTry,
    isPractice,
    isInDanger,
    speak,
    act,
    open,
    close,
    putAway,
    turnTo,
    lay,
    writeReading,
    pick,
    take,
    switchLamp,
    mayTurn: () => tool.value === 'hand' && attempt.phase.value === 'working' && mayTurn(),
    turnBlade,
    wasTurned,
  };
}

export type Desk = ReturnType<typeof createDesk>;
