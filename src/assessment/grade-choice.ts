import { type Bench, measureBench } from '../bench/index.ts';
import {
  mountBlade,
  type Rack,
  type RackBlade,
  type RackKnife,
  type Reason,
  weighBlade,
  weighKnife,
} from '../grading/index.ts';
import { type FaultCatalogue, type FaultPart, findFaults, type LimitSet } from '../limits/index.ts';
import { gapsOf } from './form/fit.ts';
import { OWN } from './form/index.ts';
import { INSERTS, LEAST_GAP } from './form/inserts.ts';

/** One thing taken from the rack, or left on the bench, against the job and the limits in force. */
export type ChoiceLine = {
  readonly what: 'blade' | 'knife' | 'insert';
  /** title of what is on the bench now; null where nothing is, or it hung in no rack */
  readonly title: string | null;
  /** `will-do`: it fits, and something in the rack suits the job better */
  readonly verdict: 'right' | 'will-do' | 'wrong';
  /** 0 to 1 */
  readonly worth: number;
  /** why, each with its source where a limit decides */
  readonly reasons: readonly Reason[];
  /** titles of what would have been right, the best first */
  readonly better: readonly string[];
};

export type ChoiceGrade = {
  readonly lines: readonly ChoiceLine[];
  /** 0 to 100; the blade counts as much as knife and insert together */
  readonly score: number;
};

type Rules = { readonly sets: readonly LimitSet[]; readonly catalogue: FaultCatalogue };

const WEIGHT = { blade: 2, knife: 1, insert: 1 } as const;
/** Practice does not tell apart blades whose worth is this near the best one's. */
const AS_GOOD = 0.9;
/** What a blade earns that fits and is not the best for the job. */
const WILL_DO = 0.6;

const against = (says: string): Reason => ({ kind: 'against', says });
const isAgainst = ({ kind }: Reason): boolean => kind === 'against';
const verdictOf = (worth: number): ChoiceLine['verdict'] =>
  worth === 1 ? 'right' : worth > 0 ? 'will-do' : 'wrong';

/** Faults of the things themselves, whatever they are set to. */
const faultsOf = (bench: Bench, part: FaultPart, { sets, catalogue }: Rules): Reason[] =>
  findFaults(bench, measureBench(bench), sets, catalogue)
    .filter((fault) => fault.part === part)
    .map(({ title, why, from }) => against(`${title}. ${why} (${from})`));

function asRackBlade({ blade }: Bench, rack: Rack): RackBlade {
  const { diameter, plate, kerf, teeth, gulletDepth, hookAngle, maxSpeed } = blade;
  const marks = { diameter, plate, kerf, teeth, gulletDepth, hookAngle, maxSpeed };
  const hung = rack.blades.find((one) =>
    Object.entries(marks).every(([key, value]) => one[key as keyof typeof marks] === value),
  );
  return hung ?? { id: OWN, title: '', ...marks };
}

function asRackKnife(knife: NonNullable<Bench['knife']>, rack: Rack): RackKnife {
  const { thickness, edgeRadius, reach } = knife;
  const hung = rack.knives.find(
    (one) => one.thickness === thickness && one.edgeRadius === edgeRadius && one.reach === reach,
  );
  return hung ?? { id: OWN, title: '', thickness, edgeRadius, reach };
}

function bladeLine(end: Bench, rack: Rack, rules: Rules): ChoiceLine {
  const weigh = (blade: RackBlade) => weighBlade(blade, end, rack, rules.sets);
  const on = asRackBlade(end, rack);
  const mine = weigh(on);
  const all = [...rack.blades.map(weigh), mine].filter(({ fits }) => fits);
  const best = Math.max(0, ...all.map(({ score }) => score));
  const good = all.filter(({ score }) => score >= AS_GOOD * best);
  const mounted = mountBlade(end, on);
  const spoiled =
    mounted === null ? [] : faultsOf({ ...mounted, blade: end.blade }, 'blade', rules);
  const reasons = [...spoiled, ...mine.reasons];
  const worth = reasons.some(isAgainst) ? 0 : good.includes(mine) ? 1 : WILL_DO;
  return {
    what: 'blade',
    title: on.title || null,
    verdict: verdictOf(worth),
    worth,
    reasons,
    better: worth === 1 ? [] : titlesOf(good.sort((a, b) => b.score - a.score)),
  };
}

const titlesOf = (choices: readonly { readonly blade: RackBlade }[]): string[] =>
  choices.flatMap(({ blade }) => (blade.title === '' ? [] : [blade.title]));

function knifeLine(end: Bench, rack: Rack, { sets }: Rules): ChoiceLine {
  const mounted = mountBlade(end, asRackBlade(end, rack));
  const needsNone = end.job.cut === 'rebate' || end.job.cut === 'groove';
  const weigh = (knife: RackKnife) =>
    mounted === null
      ? [against('the blade it should stand behind does not go on this bench')]
      : weighKnife(mounted, knife, sets).reasons;
  const on = end.knife === null ? null : asRackKnife(end.knife, rack);
  const reasons =
    on !== null
      ? weigh(on)
      : needsNone
        ? [{ kind: 'for' as const, says: 'this cut needs none' }]
        : [against('no riving knife is on, and this cut needs one')];
  const worth = reasons.some(isAgainst) ? 0 : 1;
  return {
    what: 'knife',
    title: on?.title || null,
    verdict: verdictOf(worth),
    worth,
    reasons,
    better:
      worth === 1
        ? []
        : rack.knives.filter((one) => !weigh(one).some(isAgainst)).map(({ title }) => title),
  };
}

const round = (mm: number): string => String(Math.round(mm * 100) / 100);

function insertLine(end: Bench, rules: Rules): ChoiceLine {
  const { kerf } = end.blade;
  const weigh = (bench: Bench): Reason[] => {
    const least = Math.min(...bench.insert.gaps);
    const rubs = least < LEAST_GAP;
    return [
      ...faultsOf(bench, 'insert', rules),
      ...(rubs ? [against(`it leaves ${round(least)} mm beside the cut, and the blade rubs`)] : []),
    ];
  };
  const bad = weigh(end);
  const [left, right] = end.insert.gaps;
  const says = `it leaves ${round(left)} mm and ${round(right)} mm beside a cut of ${round(kerf)} mm`;
  const worth = bad.length > 0 ? 0 : 1;
  const others = INSERTS.filter((insert) => {
    const gaps = gapsOf(insert, kerf);
    if (gaps === null) return false;
    const sound = { ...end.insert, gaps, step: 0, worn: false, firm: true };
    return weigh({ ...end, insert: sound }).length === 0;
  });
  return {
    what: 'insert',
    title: `${round(kerf + left + right)} mm`,
    verdict: verdictOf(worth),
    worth,
    reasons: bad.length > 0 ? bad : [{ kind: 'for', says }],
    better: worth === 1 ? [] : others.map(({ slot }) => `${slot} mm`),
  };
}

/**
 * Grades what is on the bench at the end against its job: blade, riving knife and insert, each by itself.
 * How they are set is no part of it.
 */
export function gradeChoice(end: Bench, rack: Rack, rules: Rules): ChoiceGrade {
  const lines = [bladeLine(end, rack, rules), knifeLine(end, rack, rules), insertLine(end, rules)];
  const all = lines.reduce((sum, { what }) => sum + WEIGHT[what], 0);
  const got = lines.reduce((sum, { what, worth }) => sum + WEIGHT[what] * worth, 0);
  return { lines, score: (100 * got) / all };
}
