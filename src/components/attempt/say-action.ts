import type { Move, MoveEffect } from '../../assessment/index.ts';
import { isDanger, type TrialCut } from '../../bench/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { insideSentence } from '../inside-sentence.ts';
import type { Piece } from '../pieces.ts';
import { sayPieces } from '../say-pieces.ts';

/** One thing the trainee did at the bench, and what came of it. */
export type ToldAction = {
  readonly did: readonly Piece[];
  readonly came: readonly (readonly Piece[])[];
  /** hands at the blade with the supply on, or while it turned, at any step of it */
  readonly danger: 'not-isolated' | 'while-turning' | null;
};

type Titles = ReadonlyMap<string, string>;

function sayDid(action: Move, titles: Titles, say: Speaker): Piece[] {
  switch (action.do) {
    case 'unlock':
    case 'lock':
    case 'try':
      return [say(`attempt.did.${action.do}.${action.part}`)];
    case 'set':
      return sayPieces(say, `attempt.did.set.${action.setting}`, { to: { mm: action.to } });
    case 'measure': {
      const place = insideSentence(say(`names.at.${action.at}`), say);
      const tool = insideSentence(say(`names.with.${action.with}`), say);
      return [say('attempt.did.measure', { place, tool })];
    }
    case 'fit':
      return [say(`attempt.did.fit.${action.what}`, { title: titles.get(action.id) ?? action.id })];
    case 'look': {
      const part = say.maybe(`bench-panel.part.${action.at}`, action.at.replaceAll('-', ' '));
      return [say('attempt.did.look', { part: insideSentence(part, say) })];
    }
    default:
      return [say(`attempt.did.${action.do}`)];
  }
}

type Told = Exclude<MoveEffect, { kind: 'not-isolated' | 'while-turning' }>;

/** What a tool showed, and what was read off its scale where somebody had to. */
function sayReading(effect: Extract<Told, { kind: 'reading' }>, say: Speaker): Piece[] {
  const { value, uncertainty, read } = effect;
  const reading =
    value === null
      ? [say('attempt.read.too-long')]
      : sayPieces(say, 'attempt.read.is', {
          value: { mm: value, digits: 2 },
          uncertainty: { mm: uncertainty, digits: 2 },
        });
  if (read === undefined) return reading;
  const said: Piece =
    read.mm === null ? say('attempt.reading.nothing') : { mm: read.mm, digits: 2 };
  return sayPieces(say, read.right ? 'attempt.read.said.right' : 'attempt.read.said.wrong', {
    reading,
    said,
  });
}

function sayCame(effect: Told, cut: TrialCut | undefined, say: Speaker): Piece[] {
  switch (effect.kind) {
    case 'reading':
      return sayReading(effect, say);
    case 'play':
      return effect.movement > 0
        ? sayPieces(say, 'attempt.play.moved', { by: { mm: effect.movement } })
        : [say('attempt.play.none')];
    case 'refused':
      return [say(`attempt.refused.${effect.because}`)];
    case 'stopped':
      return [say(`attempt.stopped.${effect.by}`)];
    case 'turns':
      return [say(`attempt.turns.${effect.to}`, { after: say.figures(String(effect.after)) })];
    case 'cannot':
      return [say('attempt.cannot')];
    case 'fed':
      return [say(cut === undefined ? 'attempt.cut.met' : `attempt.cut.${cut.outcome}`)];
  }
}

/** Pushing one setting along in many small steps is one act to a reader: only its last step is told. */
function isStepOnTheWay(action: Move, next: Move | undefined): boolean {
  return action.do === 'set' && next?.do === 'set' && next.setting === action.setting;
}

type Telling = {
  /** the trial cuts made on the way */
  readonly cuts?: readonly { readonly action: number; readonly cut: TrialCut }[];
  /** of what hangs in the rack, by its id */
  readonly titles?: Titles;
  readonly say?: Speaker;
};

/**
 * What was done at the bench, in order, in words: in English unless a speaker is told.
 * @param effects as `replay` gives them, each with the index of its action
 */
export function tellActions(
  actions: readonly Move[],
  effects: readonly { readonly action: number; readonly effect: MoveEffect }[],
  { cuts = [], titles = new Map(), say = sayIn('en') }: Telling = {},
): ToldAction[] {
  const told: ToldAction[] = [];
  let pending: MoveEffect[] = [];
  for (const [index, action] of actions.entries()) {
    pending.push(...effects.filter((one) => one.action === index).map((one) => one.effect));
    if (isStepOnTheWay(action, actions[index + 1])) {
      // a danger on the way still counts; where it bumped on the way does not
      pending = pending.filter(isDanger).slice(0, 1);
      continue;
    }
    const danger = pending.find(isDanger)?.kind ?? null;
    const came = pending.flatMap((effect) =>
      isDanger(effect) ? [] : [[JSON.stringify(effect), effect] as const],
    );
    const cut = cuts.find((one) => one.action === index)?.cut;
    told.push({
      did: sayDid(action, titles, say),
      came: [...new Map(came).values()].map((effect) => sayCame(effect, cut, say)),
      danger,
    });
    pending = [];
  }
  return told;
}
