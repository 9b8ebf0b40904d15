import { type Bench, type Knife, readBench, transition } from '../../bench/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { FieldId } from './fields.ts';
import type { Answers, FieldProblem } from './read-asked.ts';

/** A knife as a fitter would choose it for this blade, where the bench has none of its own. */
function knifeFor({ blade }: Bench): Knife {
  const radius = blade.diameter / 2;
  return {
    thickness: (blade.plate + blade.kerf) / 2,
    edgeRadius: radius + 4,
    reach: radius - 2,
    along: 2,
    up: 0,
    lateral: 0,
    play: 0,
    carriedBy: 'arbor',
    locked: true,
  };
}

const ROWS = [1, 2, 3, 4] as const;

type Numbers = Answers['numbers'];
type Read<Value> = Value | { readonly problem: FieldProblem };

const problem = (field: FieldId, message: string) => ({ problem: { field, message } });

/** The stretches of the day; a row left empty is no stretch. */
function noiseOf(
  numbers: Numbers,
  say: Speaker,
): Read<{ noise: { level: number; hours: number }[] }> {
  const noise: { level: number; hours: number }[] = [];
  for (const row of ROWS) {
    const [level, hours] = [numbers[`level${row}`], numbers[`hours${row}`]];
    if (level === null && hours === null) continue;
    if (level === null) {
      return problem(`level${row}`, say('workings.problem.no-level', { row }));
    }
    if (hours === null) {
      return problem(`hours${row}`, say('workings.problem.no-hours', { row }));
    }
    noise.push({ level, hours });
  }
  const sum = noise.reduce((total, { hours }) => total + hours, 0);
  if (sum > 24) return problem('hours1', say('workings.problem.long-day'));
  return { noise };
}

/**
 * The bench as the reader has set it: the shipped one with their figures, its blade raised or
 * lowered as the bench itself does it, and read again by the one schema.
 */
export function setBench(
  shipped: Bench,
  { numbers, choices }: Answers,
  say: Speaker,
): Read<{ bench: Bench }> {
  const own = (id: FieldId): number => numbers[id] ?? 0;
  const day = noiseOf(numbers, say);
  if ('problem' in day) return day;
  const knife = { ...(shipped.knife ?? knifeFor(shipped)), thickness: own('knifeThickness') };
  const raised = transition(
    { ...shipped, knife: choices.knife === 'on' ? knife : null },
    { do: 'set', setting: 'arbor.depth', to: shipped.blade.diameter / 2 - own('height') },
  );
  if (raised.effects.some(({ kind }) => kind === 'stopped')) {
    return problem(
      'height',
      say('workings.problem.fouls', { height: say.figures(String(own('height'))) }),
    );
  }
  const { bench } = raised;
  const { job, people, exposure } = bench;
  const { motorPower: _unrated, ...arbor } = bench.arbor;
  const dust =
    numbers.dust === null
      ? {}
      : { dust: { ...exposure?.dust, level: numbers.dust, wood: choices.wood } };
  const noise = day.noise.length === 0 ? {} : { noise: day.noise };
  const read = readBench({
    ...bench,
    fence: { ...bench.fence, toe: own('toe'), face: own('widthOfCut') },
    arbor: {
      ...arbor,
      runDown: own('runDown'),
      ...(numbers.motor === null ? {} : { motorPower: numbers.motor }),
    },
    place: { ...bench.place, light: own('light') },
    job: {
      ...job,
      fed: own('fed'),
      widthOfCut: own('widthOfCut'),
      stock: { ...job.stock, thickness: own('thickness'), length: own('length') },
    },
    people: {
      ...people,
      operator: { ...people.operator, x: -own('back'), z: -own('left') },
      pushStick:
        choices.stick === 'on'
          ? { ...people.pushStick, length: own('stickLength'), usedForLast: own('stickLast') }
          : null,
    },
    exposure: {
      ...(exposure?.peak === undefined ? {} : { peak: exposure.peak }),
      ...(exposure?.protection === undefined ? {} : { protection: exposure.protection }),
      ...noise,
      ...dust,
    },
  });
  return read.ok
    ? { bench: read.bench }
    : problem('height', say('workings.problem.cannot', { problem: read.error.message }));
}

/** The same bench with and without its knife, whichever of the two it has now. */
export function knifeOnAndOff(bench: Bench, shipped: Bench, thickness: number) {
  const knife = bench.knife ?? { ...(shipped.knife ?? knifeFor(shipped)), thickness };
  return { on: { ...bench, knife }, off: { ...bench, knife: null } };
}
