import { batch, computed, signal } from '@preact/signals';
import type {
  Action,
  Bench,
  Effect,
  InstrumentId,
  MeasuringPointId,
  Part,
} from '../../../bench/index.ts';
import type { Stage } from '../../../scene/index.ts';
import type { Attempt } from './attempt.ts';
import { readingsOf } from './notebook.ts';
import { isClamped, isPart, placesOn, type Tool } from './parts.ts';
import { sayAction } from './say-action.ts';
import { type Reading, sayEffect } from './say-effect.ts';
import { say } from './words.ts';

export type Paper = 'result' | 'job' | 'parts' | 'faults' | 'notebook';
export type View = 'picture' | 'side' | 'end' | 'plan' | 'knife';
export type Said = { readonly text: string; readonly tone: 'plain' | 'danger' };

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
  const readings = computed(() => readingsOf(attempt.done.value));

  function speak(text: string, tone: Said['tone'] = 'plain'): void {
    // the same words again must reach a screen reader again: a no-break space makes them new
    const isRepeat = said.value.text === text;
    said.value = { text: isRepeat ? `${text}\u00a0` : text, tone };
  }

  /**
   * In practice: hands have been at the blade since the supply was last switched on. Told at once
   * and once, not with every touch; in a test it is told with the result.
   */
  const isInDanger = computed(() => {
    const bench = attempt.bench.value;
    const isPractice = attempt.started.value?.task.mode === 'practice';
    if (!isPractice || bench === null || bench.controls.isolated) return false;
    const since = attempt.done.value.findLastIndex((one) => one.action.do === 'reconnect');
    return attempt.done.value
      .slice(since + 1)
      .some((one) => one.effects.some((effect) => effect.kind === 'not-isolated'));
  });

  function act(action: Action): void {
    const before = attempt.bench.value;
    if (before === null) return;
    const wasInDanger = isInDanger.value;
    const effects = attempt.act(action);
    show(effects, action, before);
    const danger = effects.find((effect) => effect.kind === 'not-isolated');
    const came =
      effects
        .filter((effect) => effect !== danger)
        .map((effect) => sayEffect(effect, before))
        .join(' ') || sayAction(action, attempt.bench.value);
    if (danger !== undefined && isInDanger.value && !wasInDanger) {
      speak(`${sayEffect(danger, before)} ${came}`, 'danger');
    } else if (came !== '') speak(came);
  }

  /** Lays the instrument in the picture, or takes it away once its place may have moved. */
  function show(effects: readonly Effect[], action: Action, bench: Bench): void {
    const taken = effects.find((effect) => effect.kind === 'reading');
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

  /** Turns the blade by hand, which nobody does with the supply on. */
  function turnBlade(teeth: number): void {
    if (attempt.bench.value?.controls.isolated !== true) {
      speak(say('blade.not-locked'));
      return;
    }
    turned.value += teeth;
    stage.value?.turnBlade(teeth);
    speak(say('blade.turned'));
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
    isInDanger,
    speak,
    act,
    open,
    close,
    putAway,
    turnTo,
    lay,
    pick,
    take,
    switchLamp,
    turnBlade,
  };
}

export type Desk = ReturnType<typeof createDesk>;
