import words from '../../../../content/messages/en/trial-cut.json';
import {
  ASSUMED_CLOSING,
  type Bench,
  type CutMoment,
  isTurning,
  type TrialCut,
  turningOf,
  whoIsInStrip,
} from '../../../bench/index.ts';
import { sentenceOf } from '../../../words/spoken.ts';
import { fill, type Word } from './words.ts';

export type CutKey = keyof typeof words;

/** A sentence of the trial cut, which is fetched with its paper. */
export const sayCut = (key: CutKey, values: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('trial-cut', words, key), values);

/** A whole number, or two figures of a small one: an estimate claims no more. */
export const rough = (value: number): number =>
  value >= 10 ? Math.round(value) : Number(value.toPrecision(2));

export const seconds = (s: number): string => s.toFixed(1);

export function sayState(bench: Bench): string {
  const isLocked = bench.controls.isolated && !isTurning(bench);
  return sayCut(isLocked ? 'state.locked' : `state.${turningOf(bench)}`);
}

export const sayMoment = ({ kind }: CutMoment, { thrown }: TrialCut): string =>
  sayCut(`moment.${kind}`, { speed: thrown === null ? '' : rough(thrown.speed) });

/** What came of a cut, in a few words. */
export const sayInShort = ({ outcome, thrown, lasts }: TrialCut): string =>
  sayCut(`short.${outcome}`, {
    speed: thrown === null ? '' : rough(thrown.speed),
    seconds: seconds(lasts),
  });

/** Why it came out so: a sentence for each cause, with the figures it rests on. */
export function sayWhy(cut: TrialCut, bench: Bench): string[] {
  const has = (kind: CutMoment['kind']) => cut.moments.some((one) => one.kind === kind);
  const { blade, knife, fence, arbor } = bench;
  const why: string[] = [];
  if (cut.outcome === 'smooth') why.push(sayCut('why.smooth'));
  if (has('burns')) {
    if (blade.mounted === 'backwards') why.push(sayCut('why.backwards'));
    if (cut.cut.rubs) {
      const thinnest = { mm: cut.assumed.thinnestChip, digits: 2 };
      why.push(sayCut('why.rubs', { chip: { mm: cut.cut.chip.mean, digits: 3 }, thinnest }));
    }
  }
  if (has('grips')) {
    const { intoPlate } = cut.binding;
    why.push(
      sayCut('why.grips', {
        closing: { mm: cut.closing.full },
        room: { mm: blade.kerf - blade.plate, digits: 2 },
        into: { mm: intoPlate, digits: 2 },
      }),
      sayCut(knife === null ? 'why.no-knife' : 'why.thin-knife'),
    );
  }
  if (has('lifts')) {
    why.push(
      sayCut('why.lifts', { toe: { mm: -fence.toe, digits: 2 } }),
      sayCut(knife === null ? 'why.lifts-no-knife' : 'why.lifts-knife'),
    );
  }
  if (has('traps')) why.push(sayCut('why.traps'));
  if (has('stalls')) {
    const share = `${rough(100 * ((arbor.motorPower ?? 0) / cut.cut.power))} %`;
    why.push(sayCut('why.stalls', { power: rough(cut.cut.power), share }));
  }
  if (cut.outcome === 'stopped') why.push(sayCut('why.stopped'));
  if (has('tips')) why.push(sayCut('why.tips'));
  return why;
}

/** What to do now. */
export function sayNext({ outcome }: TrialCut): string {
  const like = outcome === 'burning' ? 'smooth' : outcome;
  return like === 'stopped' ? sayCut('state.slowing') : sayCut(`next.${like}`);
}

/** The strip, and who stands in it, as sentences. */
export function sayStrip({ thrown, estimate }: TrialCut, bench: Bench): string[] {
  if (thrown === null) return [];
  const { from, to } = thrown.strip;
  const who = whoIsInStrip(bench);
  const reaches = estimate?.reaches ?? null;
  return [
    sayCut('strip', { left: { mm: -from }, right: { mm: to } }),
    ...(who.length === 0 ? [sayCut('strip.clear')] : who.map((one) => sayCut(`strip.${one}`))),
    ...(reaches === null ? [] : [sayCut('strip.reaches', { ms: rough(reaches.after) })]),
  ];
}

/** The figures behind it, name and value. */
export function figuresOf({ cut, closing, binding, estimate }: TrialCut, bench: Bench) {
  const rows: [string, string][] = [
    [sayCut('figure.feed'), sayCut('figure.feed.is', { fed: bench.job.fed })],
    [sayCut('figure.rim'), sayCut('figure.rim.is', { speed: rough(cut.rimSpeed) })],
    [sayCut('figure.chip'), fill('{it}', { it: { mm: cut.chip.mean, digits: 3 } })],
    [sayCut('figure.teeth'), cut.teethInCut.toFixed(1)],
    [sayCut('figure.power'), sayCut('figure.power.is', { power: rough(cut.power) })],
    [sayCut('figure.closing'), fill('{it}', { it: { mm: closing.full } })],
    [sayCut('figure.closes'), fill('{it}', { it: { mm: binding.closes, digits: 2 } })],
  ];
  if (estimate !== null) {
    const { speed, energy, mass } = estimate;
    rows.push(
      [sayCut('figure.thrown'), sayCut('figure.thrown.is', { speed: rough(speed) })],
      [
        sayCut('figure.energy'),
        sayCut('figure.energy.is', { energy: rough(energy), mass: rough(mass) }),
      ],
    );
  }
  return rows;
}

/** What had to be assumed, as sentences. */
export function sayAssumed({ closing, assumed, thrown }: TrialCut): string[] {
  const from = closing.from
    .map((one) =>
      sayCut(`assumed.${one}`, {
        mm: { mm: ASSUMED_CLOSING[one] },
        percent: ASSUMED_CLOSING.wetAbove,
      }),
    )
    .join(', ');
  return [
    closing.held
      ? sayCut('assumed.held')
      : sayCut('assumed.closing', { from: from === '' ? sayCut('assumed.nothing') : from }),
    sayCut('assumed.knife'),
    sayCut('assumed.force', { kc: assumed.specificCutting }),
    sayCut('assumed.stall', { times: assumed.stallsAt }),
    ...(thrown === null ? [] : [sayCut('assumed.throw')]),
  ];
}
