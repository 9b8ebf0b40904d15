import { batch, computed, signal } from '@preact/signals';
import type { Action, Effect, InstrumentId, MeasuringPointId, Part } from '../../../bench/index.ts';
import type { Attempt } from './attempt.ts';
import { readingsOf } from './notebook.ts';
import { isClamped, isPart, placesOn, type Tool } from './parts.ts';
import { sayAction } from './say-action.ts';
import { type Reading, sayEffect } from './say-effect.ts';
import type { Stage } from './stage-api.ts';
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
  const reading = signal<Reading | null>(null);
  const said = signal<Said>({ text: '', tone: 'plain' });
  const view = signal<View>('picture');
  const stage = signal<Stage | null>(null);
  /** why there is no picture, when there is none */
  const noPicture = signal<string | null>(null);
  const readings = computed(() => readingsOf(attempt.done.value));

  function speak(text: string, tone: Said['tone'] = 'plain'): void {
    // the same words again must reach a screen reader again: a no-break space makes them new
    const isRepeat = said.value.text === text;
    said.value = { text: isRepeat ? `${text}\u00a0` : text, tone };
  }

  const isPractice = (): boolean => attempt.started.value?.task.mode === 'practice';

  /** Told once each time the supply is on, not with every touch. */
  function isFirstDanger(): boolean {
    const before = attempt.done.value.slice(0, -1);
    const since = before.findLastIndex((one) => one.action.do === 'reconnect');
    return !before
      .slice(since + 1)
      .some((one) => one.effects.some((effect) => effect.kind === 'not-isolated'));
  }

  function report(action: Action, effects: readonly Effect[]): void {
    const danger = effects.find((effect) => effect.kind === 'not-isolated');
    const rest = effects.filter((effect) => effect !== danger);
    const came = rest.map(sayEffect).join(' ') || sayAction(action, attempt.bench.value);
    if (danger !== undefined && isPractice() && isFirstDanger()) {
      speak(`${sayEffect(danger)} ${came}`, 'danger');
    } else if (came !== '') speak(came);
  }

  function show(effects: readonly Effect[], action: Action): void {
    const taken = effects.find((effect) => effect.kind === 'reading');
    const isMove = action.do === 'set' || action.do === 'unlock' || action.do === 'lock';
    if (taken !== undefined) reading.value = taken;
    else if (isMove) reading.value = null;
    else return;
    stage.value?.showInstrument(
      taken === undefined ? null : { instrument: taken.with, at: taken.at, reading: taken.value },
    );
  }

  function act(action: Action): void {
    const effects = attempt.act(action);
    show(effects, action);
    if (action.do !== 'look') report(action, effects);
  }

  /** Opens a part's sheet. Turning to a part is looking at it, and is written in the attempt. */
  function open(which: Part): void {
    const isNew = part.value !== which;
    batch(() => {
      part.value = which;
      paper.value = 'parts';
      isFolded.value = false;
    });
    stage.value?.highlight(which);
    if (isNew && attempt.phase.value === 'working') attempt.act({ do: 'look', at: which });
  }

  function close(): void {
    part.value = null;
    stage.value?.highlight(null);
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
  function pick(which: string): void {
    if (!isPart(which)) return;
    open(which);
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
      if (tool.value === null) reading.value = null;
      else if (part.value === null) {
        paper.value = 'parts';
        isFolded.value = false;
      }
    });
    if (tool.value === null) stage.value?.showInstrument(null);
  }

  function switchLamp(): void {
    lamp.value = lamp.value === 'on' ? 'off' : 'on';
    stage.value?.setLamp(lamp.value);
    speak(say(lamp.value === 'on' ? 'lamp.on' : 'lamp.off'));
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
    readings,
    speak,
    act,
    open,
    close,
    turnTo,
    lay,
    pick,
    take,
    switchLamp,
  };
}

export type Desk = ReturnType<typeof createDesk>;
