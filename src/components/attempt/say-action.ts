import {
  type Action,
  type ClampedPart,
  type Effect,
  INSTRUMENTS,
  MEASURING_POINTS,
  type SettingId,
} from '../../bench/index.ts';
import type { Piece } from '../pieces.ts';

/** One thing the trainee did at the bench, and what came of it. */
export type ToldAction = {
  readonly did: readonly Piece[];
  readonly came: readonly (readonly Piece[])[];
  /** hands at the blade with the supply on, at any step of it */
  readonly danger: boolean;
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

function sayDid(action: Action): Piece[] {
  switch (action.do) {
    case 'isolate':
      return ['Locked off the supply'];
    case 'reconnect':
      return ['Put the supply back on'];
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
    case 'look':
      return [`Looked at ${action.at.replaceAll('-', ' ')}`];
  }
}

const REFUSED = {
  locked: 'It did not move: its clamp was tight',
  'taken-off': 'It was not on the bench',
  'no-fingers': 'This guard has no fingers',
} as const;
const STOPPED = {
  teeth: 'It stopped short of the teeth',
  range: 'It came to the end of its travel',
  table: 'It stopped at the table',
} as const;

function sayCame(effect: Exclude<Effect, { kind: 'not-isolated' }>): Piece[] {
  switch (effect.kind) {
    case 'reading':
      return effect.value === null
        ? ['The tool could not take this length']
        : [
            'It read ',
            { mm: effect.value, digits: 2 },
            ', within ',
            { mm: effect.uncertainty, digits: 2 },
          ];
    case 'play':
      return effect.movement > 0 ? ['It moved by ', { mm: effect.movement }] : ['It did not move'];
    case 'refused':
      return [REFUSED[effect.because]];
    case 'stopped':
      return [STOPPED[effect.by]];
  }
}

/** Pushing one setting along in many small steps is one act to a reader: only its last step is told. */
function isStepOnTheWay(action: Action, next: Action | undefined): boolean {
  return action.do === 'set' && next?.do === 'set' && next.setting === action.setting;
}

/**
 * What was done at the bench, in order, in words.
 * @param effects as `replay` gives them, each with the index of its action
 */
export function tellActions(
  actions: readonly Action[],
  effects: readonly { readonly action: number; readonly effect: Effect }[],
): ToldAction[] {
  const told: ToldAction[] = [];
  let pending: Effect[] = [];
  for (const [index, action] of actions.entries()) {
    pending.push(...effects.filter((one) => one.action === index).map((one) => one.effect));
    if (isStepOnTheWay(action, actions[index + 1])) {
      // a danger on the way still counts; where it bumped on the way does not
      pending = pending.filter((effect) => effect.kind === 'not-isolated').slice(0, 1);
      continue;
    }
    const danger = pending.some((effect) => effect.kind === 'not-isolated');
    const came = pending.flatMap((effect) =>
      effect.kind === 'not-isolated' ? [] : [[JSON.stringify(effect), effect] as const],
    );
    told.push({ did: sayDid(action), came: [...new Map(came).values()].map(sayCame), danger });
    pending = [];
  }
  return told;
}
