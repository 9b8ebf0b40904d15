import type { Move, MoveEffect } from '../../assessment/index.ts';
import {
  type ClampedPart,
  INSTRUMENTS,
  isDanger,
  MEASURING_POINTS,
  type SettingId,
  type TrialCut,
} from '../../bench/index.ts';
import type { Piece } from '../pieces.ts';

/** One thing the trainee did at the bench, and what came of it. */
export type ToldAction = {
  readonly did: readonly Piece[];
  readonly came: readonly (readonly Piece[])[];
  /** hands at the blade with the supply on, or while it turned, at any step of it */
  readonly danger: 'not-isolated' | 'while-turning' | null;
};

const PART: Record<ClampedPart, string> = {
  knife: 'riving knife',
  guard: 'crown guard',
  fence: 'fence',
};

const MOVED: Record<SettingId, string> = {
  'knife.along': 'Moved the riving knife toward or away from the teeth, to ',
  'knife.up': 'Moved the riving knife up or down, to ',
  'guard.height': 'Set the underside of the crown guard above the table at ',
  'guard.front': 'Slid the crown guard along its arm, its front end to ',
  'fence.end': 'Slid the fence, its far end to ',
  'fence.face': 'Set the fence face from the kerf at ',
  'arbor.depth': 'Raised or lowered the blade, its spindle below the table at ',
};

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const FITTED = { blade: 'blade', knife: 'riving knife', insert: 'table insert' } as const;

type Titles = ReadonlyMap<string, string>;

function sayDid(action: Move, titles: Titles): Piece[] {
  switch (action.do) {
    case 'isolate':
      return ['Locked off the supply'];
    case 'reconnect':
      return ['Put the supply back on'];
    case 'start':
      return ['Started the saw'];
    case 'stop':
      return ['Pressed stop'];
    case 'wait':
      return ['Waited for the blade to stand still'];
    case 'feed':
      return ['Fed the work through'];
    case 'unlock':
      return [`Loosened the clamp of the ${PART[action.part]}`];
    case 'lock':
      return [`Tightened the clamp of the ${PART[action.part]}`];
    case 'set':
      return [MOVED[action.setting], { mm: action.to }];
    case 'rest-fingers':
      return ['Let the fingers down onto the work'];
    case 'raise-fingers':
      return ['Lifted the fingers'];
    case 'measure': {
      const { title } = MEASURING_POINTS[action.at];
      return [`Measured ${lowerFirst(title)}, with ${lowerFirst(INSTRUMENTS[action.with].title)}`];
    }
    case 'try':
      return [`Tried the ${PART[action.part]} by hand`];
    case 'fit':
      return [
        `Took a ${FITTED[action.what]} from the rack and fitted it: ${titles.get(action.id) ?? action.id}`,
      ];
    case 'look':
      return [`Looked at ${action.at.replaceAll('-', ' ')}`];
  }
}

const REFUSED = {
  locked: 'It did not move: its clamp was tight',
  'taken-off': 'It was not on the bench',
  'no-fingers': 'This guard has no fingers',
  'locked-off': 'The supply was locked off, so nothing started',
  running: 'The saw was running',
  still: 'The blade stood still already',
  'stop-fails': 'The stop did not work, and the saw ran on',
  'not-running': 'The saw was not running, so nothing was cut',
  'not-fed': 'The job has no feed, so nothing was cut',
} as const;
const STOPPED = {
  teeth: 'It stopped short of the teeth',
  range: 'It came to the end of its travel',
  table: 'It stopped at the table',
} as const;

const TURNS = {
  running: (after: number) => `It came to speed in ${after} s`,
  slowing: () => 'The blade began to run down',
  still: (after: number) => `The blade stood still after ${after} s`,
} as const;
const CAME_OF_CUT = {
  smooth: 'The cut went through smoothly',
  burning: 'The cut went through and burned',
  binding: 'The work bound on the blade and stuck',
  thrown: 'The work was thrown back at the operator',
  stalled: 'The blade stalled in the work',
  stopped: 'Stop was pressed with the work part way through',
} as const;

type Told = Exclude<MoveEffect, { kind: 'not-isolated' | 'while-turning' }>;

/** What was read off the scale, where somebody had to. */
function sayRead(read: Extract<MoveEffect, { kind: 'reading' }>['read']): Piece[] {
  if (read === undefined) return [];
  const said: Piece = read.mm === null ? 'nothing' : { mm: read.mm, digits: 2 };
  return ['; read as ', said, read.right ? ', which agrees' : ', which does not agree'];
}

function sayCame(effect: Told, cut: TrialCut | undefined): Piece[] {
  switch (effect.kind) {
    case 'reading':
      return [
        ...(effect.value === null
          ? ['The tool could not take this length']
          : [
              'It read ',
              { mm: effect.value, digits: 2 },
              ', within ',
              { mm: effect.uncertainty, digits: 2 },
            ]),
        ...sayRead(effect.read),
      ];
    case 'play':
      return effect.movement > 0 ? ['It moved by ', { mm: effect.movement }] : ['It did not move'];
    case 'refused':
      return [REFUSED[effect.because]];
    case 'stopped':
      return [STOPPED[effect.by]];
    case 'turns':
      return [TURNS[effect.to](effect.after)];
    case 'cannot':
      return ['It does not go on this bench'];
    case 'fed':
      return [cut === undefined ? 'The work met the blade' : CAME_OF_CUT[cut.outcome]];
  }
}

/** Pushing one setting along in many small steps is one act to a reader: only its last step is told. */
function isStepOnTheWay(action: Move, next: Move | undefined): boolean {
  return action.do === 'set' && next?.do === 'set' && next.setting === action.setting;
}

/**
 * What was done at the bench, in order, in words.
 * @param effects as `replay` gives them, each with the index of its action
 * @param cuts the trial cuts made on the way
 * @param titles of what hangs in the rack, by its id
 */
export function tellActions(
  actions: readonly Move[],
  effects: readonly { readonly action: number; readonly effect: MoveEffect }[],
  cuts: readonly { readonly action: number; readonly cut: TrialCut }[] = [],
  titles: Titles = new Map(),
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
      did: sayDid(action, titles),
      came: [...new Map(came).values()].map((effect) => sayCame(effect, cut)),
      danger,
    });
    pending = [];
  }
  return told;
}
