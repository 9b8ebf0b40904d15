import type {
  Answer,
  Finding,
  FormForCandidate,
  Move,
  Random,
  ShownTask,
  Work,
} from '../../src/assessment/index.ts';
import { SETTING_IDS, SETTINGS } from '../../src/bench/index.ts';
import { REMEDY_IDS } from '../../src/limits/index.ts';
import { type Knowledge, sitPerfectly } from './perfect-candidate.ts';

const PARTS = ['knife', 'guard', 'fence'] as const;
const CONFIDENCE = ['guess', 'fairly-sure', 'certain'] as const;

function clickFinding({ catalogue }: Knowledge, random: Random): Finding {
  const { id, part } = random.pick(catalogue.entries).fault;
  return {
    part,
    fault: id,
    remedy: random.pick(REMEDY_IDS),
    confidence: random.pick(CONFIDENCE),
  };
}

function clickMoves(task: Extract<ShownTask, { kind: 'set' }>, random: Random): Move[] {
  const one = (): Move => {
    switch (random.whole(0, 5)) {
      case 0:
        return { do: 'unlock', part: random.pick(PARTS) };
      case 1:
        return { do: 'lock', part: random.pick(PARTS) };
      case 2:
        return { do: 'fit', what: 'blade', id: random.pick(task.blades).id };
      case 3:
        return { do: 'fit', what: 'knife', id: random.pick(task.knives).id };
      default: {
        const setting = random.pick(SETTING_IDS);
        const { least, most } = SETTINGS[setting];
        return { do: 'set', setting, to: random.whole(least, most) };
      }
    }
  };
  return [{ do: 'isolate' }, ...Array.from({ length: random.whole(0, 30) }, one)];
}

function clickTask(task: ShownTask, knowledge: Knowledge, random: Random): Answer {
  const some = <Item>(items: readonly Item[]) =>
    random.sample(items, random.whole(0, items.length));
  switch (task.kind) {
    case 'find': {
      const count = random.whole(0, 20);
      const findings = Array.from({ length: count }, () => clickFinding(knowledge, random));
      return { kind: 'find', actions: [], findings };
    }
    case 'set':
      return { kind: 'set', moves: clickMoves(task, random) };
    case 'plan':
      return {
        kind: 'plan',
        stance: random.pick(task.stances).id,
        stick: random.pick(task.sticks).id,
        end: random.pick(task.ends).id,
      };
    case 'react':
      return { kind: 'react', steps: some(task.choices).map(({ id }) => id) };
    case 'limit':
      return {
        kind: 'limit',
        value: random.whole(0, 500) / random.pick([1, 10]),
        within: some(task.readings).map(({ id }) => id),
      };
  }
}

/** Somebody who presses whatever is there. */
export const clickAtRandom = (form: FormForCandidate, knowledge: Knowledge, random: Random): Work =>
  Object.fromEntries(form.tasks.map((task) => [task.id, clickTask(task, knowledge, random)]));

/** Somebody who does all else to perfection and names every fault there is, with the best remedy. */
export function nameEverything(form: FormForCandidate, knowledge: Knowledge): Work {
  const findings = knowledge.catalogue.entries.map(({ fault: { id, part, remedies } }) => ({
    part,
    fault: id,
    remedy: remedies[0]!,
    confidence: 'certain' as const,
  }));
  return { ...sitPerfectly(form, knowledge), find: { kind: 'find', actions: [], findings } };
}
