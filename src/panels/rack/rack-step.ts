import {
  type Move,
  makeMove,
  type Setting,
  startSetting,
  type TaskRack,
} from '../../assessment/index.ts';
import type { Action, Bench, Step } from '../../bench/index.ts';

/** What hangs beside a bench, and the bench as it was given. */
type RackBeside = Omit<TaskRack, 'ownSlot'> & {
  readonly ownSlot?: number;
  readonly bench: Bench;
};

export type RackOnDesk = {
  readonly rack: Omit<RackBeside, 'bench'>;
  /** what of the rack is on a bench of this task */
  readonly settingOf: (bench: Bench) => Setting | null;
};

/** The rack knows what is mounted; the bench itself does not, so it is noted beside each bench. */
export function rackStep(rack: RackBeside): RackOnDesk & {
  readonly step: (bench: Bench, action: Action) => Step;
} {
  const settings = new WeakMap<Bench, Setting>();
  settings.set(rack.bench, startSetting(rack));
  const settingOf = (bench: Bench) => settings.get(bench) ?? null;
  const step = (bench: Bench, action: Action): Step => {
    const state = settingOf(bench) ?? { ...startSetting(rack), bench };
    const next = makeMove(state, action as Move, rack);
    settings.set(next.state.bench, next.state);
    return { bench: next.state.bench, effects: next.effects as Step['effects'] };
  };
  return { rack, settingOf, step };
}
