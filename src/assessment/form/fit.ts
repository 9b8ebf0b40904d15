import { type Action, type Bench, type Effect, isPossible, transition } from '../../bench/index.ts';
import type { RackBlade, RackKnife } from '../../grading/index.ts';
import type { InsertChoice, SetTask } from './form.ts';
import type { Move } from './work-schema.ts';

/** What came of a move; `cannot` where the thing does not go on this bench. */
export type MoveEffect =
  | Effect
  | { readonly kind: 'cannot'; readonly what: 'blade' | 'knife' | 'insert'; readonly id: string }
  | { readonly kind: 'not-isolated'; readonly action: Action['do'] | 'fit' };

/** A bench being set, with what of the rack is on it. */
export type Setting = {
  readonly bench: Bench;
  readonly blade: string;
  /** null while no knife is on */
  readonly knife: string | null;
  readonly insert: string;
};

type Rack = Pick<SetTask, 'blades' | 'knives' | 'inserts'> & {
  /** mm: slot of the insert that was on the bench and hangs in no rack */
  readonly ownSlot?: number;
};

/** What was on the bench at the start and came from no rack: once off, it is not put back. */
export const OWN = 'own';

const find = <Item extends { readonly id: string }>(items: readonly Item[], id: string) =>
  items.find((item) => item.id === id);

/** A blade as it comes from the rack, looked over there. */
const WHOLE: Bench['blade']['condition'] = {
  cracks: [],
  missingTeeth: [],
  broken: [],
  gullets: 'rounded',
  sharpness: 'sharp',
  set: 'even',
  burnt: false,
  resin: false,
  marked: true,
  scratches: [],
};

/** mm that a fresh blade is let stand above the table at least, and a fresh knife behind the teeth. */
const STANDS = 20;
const BEHIND = 20;

/** The gaps a slot leaves beside a cut; null when the blade would cut into it. */
export function gapsOf({ slot }: InsertChoice, kerf: number): [number, number] | null {
  const gap = Math.round((slot - kerf) * 50) / 100;
  return gap <= 0 ? null : [gap, gap];
}

/** Rack and bench were read by their schemas; only whether they go together is left to ask. */
const ifPossible = (bench: Bench): Bench | null => (isPossible(bench) ? bench : null);

/** Puts another blade on: the knife of the last one comes off with it, for each blade has its own. */
export function fitBlade(bench: Bench, blade: RackBlade): Bench | null {
  const { id: _id, title: _title, gauge: _gauge, ...marks } = blade;
  const depth = Math.min(bench.arbor.depth, Math.floor(blade.diameter / 2 - STANDS));
  if (depth < 0) return null;
  return ifPossible({
    ...bench,
    blade: { ...marks, mounted: 'right', condition: WHOLE },
    arbor: { ...bench.arbor, depth },
    knife: null,
  });
}

/** Puts a knife in its holder, clamp open, well behind the teeth. */
export function fitKnife(bench: Bench, knife: RackKnife): Bench | null {
  const { id: _id, title: _title, ...shape } = knife;
  return ifPossible({
    ...bench,
    knife: {
      ...shape,
      along: Math.max(0, bench.blade.diameter / 2 + BEHIND - knife.edgeRadius),
      up: 0,
      lateral: 0,
      play: 0,
      carriedBy: 'arbor',
      locked: false,
      condition: 'straight',
    },
  });
}

export function fitInsert(bench: Bench, insert: InsertChoice): Bench | null {
  const gaps = gapsOf(insert, bench.blade.kerf);
  if (gaps === null) return null;
  return { ...bench, insert: { ...bench.insert, gaps, step: 0, worn: false, firm: true } };
}

const slotOf = ({ insert }: Setting, rack: Rack): number | undefined =>
  insert === OWN ? rack.ownSlot : find(rack.inserts, insert)?.slot;

/** The insert stays as it lies, and its gaps beside another cut are others. */
function keepInsert(bench: Bench, slot: number | undefined): Bench {
  const gaps = slot === undefined ? null : gapsOf({ id: OWN, slot }, bench.blade.kerf);
  return gaps === null ? bench : { ...bench, insert: { ...bench.insert, gaps } };
}

function fitOne(state: Setting, move: Extract<Move, { do: 'fit' }>, rack: Rack): Setting | null {
  const { bench } = state;
  if (move.what === 'blade') {
    const blade = find(rack.blades, move.id);
    const fitted = blade === undefined ? null : fitBlade(bench, blade);
    if (fitted === null) return null;
    return {
      ...state,
      bench: keepInsert(fitted, slotOf(state, rack)),
      blade: move.id,
      knife: null,
    };
  }
  if (move.what === 'knife') {
    const knife = find(rack.knives, move.id);
    const fitted = knife === undefined ? null : fitKnife(bench, knife);
    return fitted && { ...state, bench: fitted, knife: move.id };
  }
  const insert = find(rack.inserts, move.id);
  const fitted = insert === undefined ? null : fitInsert(bench, insert);
  return fitted && { ...state, bench: fitted, insert: move.id };
}

/** One move at a bench being set. Pure. Hands at the blade with the supply on are marked, as ever. */
export function makeMove(
  state: Setting,
  move: Move,
  rack: Rack,
): { readonly state: Setting; readonly effects: readonly MoveEffect[] } {
  if (move.do !== 'fit') {
    const { bench, effects } = transition(state.bench, move);
    return { state: { ...state, bench }, effects };
  }
  const fitted = fitOne(state, move, rack);
  const effects: MoveEffect[] = [];
  if (!state.bench.controls.isolated) effects.push({ kind: 'not-isolated', action: 'fit' });
  if (fitted === null) effects.push({ kind: 'cannot', what: move.what, id: move.id });
  return { state: fitted ?? state, effects };
}

/** How a bench being set stands at the start. */
export const startSetting = ({ bench, mounted }: Pick<SetTask, 'bench' | 'mounted'>): Setting => ({
  bench,
  ...mounted,
});

/** Runs the moves from the start on; each effect carries the index of its move. */
export function replayMoves(
  task: Rack & Pick<SetTask, 'bench' | 'mounted'>,
  moves: readonly Move[],
): {
  readonly state: Setting;
  readonly effects: readonly { readonly move: number; readonly effect: MoveEffect }[];
} {
  const effects: { move: number; effect: MoveEffect }[] = [];
  let state = startSetting(task);
  for (const [index, move] of moves.entries()) {
    const step = makeMove(state, move, task);
    state = step.state;
    for (const effect of step.effects) effects.push({ move: index, effect });
  }
  return { state, effects };
}
