import {
  type Action,
  isDanger,
  type SettingId,
  settingNow,
  transition,
} from '../../../bench/index.ts';
import type { Done } from './attempt.ts';
import { nameInside, namePlace, nameTool } from './names.ts';
import { sayEffect, sayReading } from './say-effect.ts';
import { say, sayIf } from './words.ts';

/** What came of something done; a reading is set as figures. */
export type Came = { readonly text: string; readonly kind: 'reading' | 'said' };

/** One line of the notebook. `danger`: done with the supply on, or while the blade turned. */
export type Line = {
  /** the first and last action the line tells of */
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly came: readonly Came[];
  readonly danger: boolean;
  /** the trial cut the line tells of */
  readonly cut: Done | null;
};

const isSameSetting = (one: Action, next: Action | undefined): boolean =>
  one.do === 'set' && next?.do === 'set' && next.setting === one.setting;

/** A look says nothing that need be written down, and moving in many small steps is one move. */
export function writeNotebook(done: readonly Done[]): Line[] {
  const lines: Line[] = [];
  let from = 0;
  for (const [index, one] of done.entries()) {
    if (isSameSetting(one.action, done[index + 1]?.action)) continue;
    const run = done.slice(from, index + 1);
    from = index + 1;
    if (one.action.do === 'look') continue;
    const effects = run.flatMap((step) => step.effects);
    lines.push({
      from: index + 1 - run.length,
      to: index,
      text: sayRun(run),
      came: cameOf(run),
      danger: effects.some(isDanger),
      cut: effects.some((effect) => effect.kind === 'fed') ? one : null,
    });
  }
  return lines;
}

function sayRun(run: readonly Done[]): string {
  const last = run[run.length - 1] as Done;
  const { action } = last;
  switch (action.do) {
    case 'set':
      return sayMove(action.setting, run);
    case 'unlock':
    case 'lock':
    case 'try':
      return say(`did.${action.do}`, { part: nameInside(say(`part.${action.part}`)) });
    case 'measure':
      return say('did.measure', {
        place: nameInside(namePlace(action.at)),
        tool: nameInside(nameTool(action.with)),
      });
    case 'look':
      return say('did.look', { part: sayIf(`part.${action.at}`, action.at) });
    default:
      return say(`did.${action.do}`);
  }
}

function sayMove(setting: SettingId, run: readonly Done[]): string {
  const first = run[0] as Done;
  const last = run[run.length - 1] as Done;
  const was = settingNow(first.before, setting);
  const is = settingNow(transition(last.before, last.action).bench, setting);
  const what = say(`setting.${setting}`);
  if (was === null || is === null || was === is) return say('did.not-moved', { what });
  return say('did.moved', {
    what,
    was: { mm: was, digits: 2 },
    is: { mm: is, digits: 2 },
  });
}

/** What came of it, each once: where it bumped on the way does not count, where it ended does. */
function cameOf(run: readonly Done[]): Came[] {
  const last = run[run.length - 1] as Done;
  const came = last.effects
    .filter((effect) => !isDanger(effect) && effect.kind !== 'fed')
    .map((effect): Came => {
      return effect.kind === 'reading'
        ? { text: sayReading(effect, last.before), kind: 'reading' }
        : { text: sayEffect(effect, last.before), kind: 'said' };
    });
  return [...new Map(came.map((one) => [one.text, one])).values()];
}
