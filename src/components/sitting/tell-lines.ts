import { isMeasureId, MEASURES } from '../../bench/index.ts';
import { REMEDIES } from '../../limits/index.ts';
import type {
  Confidence,
  Finding,
  FormTask,
  GradedSitting,
  ScoreLine,
  TaskGrade,
} from './graded.ts';
import { planWords } from './plan-words.ts';

/** One line of a review: what it is about, what was done, and what it brought. */
export type ToldLine = {
  readonly verdict: 'right' | 'partly' | 'wrong' | 'error';
  readonly title: string;
  readonly said: string;
  readonly why: string | null;
  /** in one's own words before the result was known; null where it was not asked */
  readonly sure: string | null;
  readonly points: number;
  readonly of: number;
  readonly critical: boolean;
};

const SURE: Readonly<Record<Confidence, string>> = {
  guess: 'a guess',
  'fairly-sure': 'fairly sure',
  certain: 'certain',
};

const verdictOf = ({ points, of }: ScoreLine): ToldLine['verdict'] =>
  points < 0 ? 'error' : points >= of ? 'right' : points > 0 ? 'partly' : 'wrong';

type Told = Pick<ToldLine, 'title' | 'said'> & Partial<Pick<ToldLine, 'why' | 'sure'>>;

/** The lines of one task in words. Every figure comes from the grade, the form or its key. */
export function tellLines(task: FormTask, grade: TaskGrade, graded: GradedSitting): ToldLine[] {
  return grade.lines.map((line) => ({
    verdict: verdictOf(line),
    why: null,
    sure: null,
    ...tellLine(task, line, graded),
    points: line.points,
    of: line.of,
    critical: line.critical,
  }));
}

function tellLine(task: FormTask, line: ScoreLine, graded: GradedSitting): Told {
  switch (task.kind) {
    case 'find':
      return tellFinding(line, graded);
    case 'set':
      return tellSetting(task, line, graded);
    case 'plan':
      return tellPlan(task, line, graded);
    case 'react':
      return tellStep(task, line, graded);
    case 'limit':
      return tellFigure(task, line, graded);
  }
}

const faultOf = ({ rules }: GradedSitting, id: string) => rules.catalogue.byId.get(id);
const titleOf = (graded: GradedSitting, id: string) => faultOf(graded, id)?.title ?? id;

function findingFor(line: ScoreLine, { work }: GradedSitting): Finding | undefined {
  const answer = work[line.task];
  // named twice, the later word stands
  return answer?.kind === 'find'
    ? answer.findings.findLast(
        ({ fault, part }) => fault === line.about && part === line.values['part'],
      )
    : undefined;
}

function tellFinding(line: ScoreLine, graded: GradedSitting): Told {
  const fault = faultOf(graded, line.about);
  const finding = findingFor(line, graded);
  const sure = finding === undefined ? null : SURE[finding.confidence];
  const title = titleOf(graded, line.about);
  const remedy = finding === undefined ? '' : REMEDIES[finding.remedy].title;
  switch (line.what) {
    case 'found':
      return line.values['remedyRight'] === true
        ? { title, sure, said: `Found. You would: ${remedy}.` }
        : {
            title,
            sure,
            said: `Found, but dealt with wrongly: you would “${remedy}”. Half of what it is worth was given.`,
            why: fault?.do ?? null,
          };
    case 'missed':
      return {
        title,
        said: `Missed. ${fault?.looks ?? ''}`,
        why: fault === undefined ? null : `${fault.why} ${fault.do}`,
      };
    case 'wrong-fault':
      return { title, sure, said: 'Named in error: that part has a fault, but another one.' };
    default:
      return {
        title,
        sure,
        said:
          line.values['lookAlike'] === null
            ? 'Named in error: that is in order on this bench.'
            : 'Named in error: it looks odd on this bench, and is in order.',
      };
  }
}

function tellSetting(
  task: Extract<FormTask, { kind: 'set' }>,
  line: ScoreLine,
  graded: GradedSitting,
): Told {
  const { values, about } = line;
  const named = (items: readonly { id: string; title: string }[]) =>
    items.find(({ id }) => id === about)?.title ?? 'none';
  switch (line.what) {
    case 'blade':
      return {
        title: `Blade: ${named(task.blades)}`,
        said:
          values['fits'] !== true
            ? 'It does not fit this job under these limits.'
            : line.points >= line.of
              ? 'As good as any on the rack for this job.'
              : 'It will do; another on the rack suits the job better.',
      };
    case 'knife':
      return {
        title: `Riving knife: ${named(task.knives)}`,
        said:
          line.points > 0
            ? 'Thicker than the plate, thinner than the cut, and in order.'
            : 'Not right for the blade that is on, or not in order as left.',
      };
    case 'insert': {
      const slot = task.inserts.find(({ id }) => id === about)?.slot;
      return {
        title: slot === undefined ? 'Table insert' : `Table insert with a slot of ${slot} mm`,
        said:
          line.points > 0
            ? 'It clears the cut and is not too wide for it.'
            : 'Too tight for the cut, or wider than it need be.',
      };
    }
    case 'setting':
      return {
        title: isMeasureId(about) ? MEASURES[about].title : about,
        said: sayMeasured(values),
      };
    case 'job':
      return {
        title: 'Fence set to the width of cut',
        said: `Left at ${values['value']} mm; the job asks for ${values['wanted']} mm.`,
      };
    default:
      return {
        title: titleOf(graded, about),
        said: 'Left on the bench.',
        why: faultOf(graded, about)?.do ?? null,
      };
  }
}

const figure = (value: unknown) => (typeof value === 'number' ? Number(value.toFixed(2)) : value);

/** What a setting was left at, and what the deciding limit asks. */
function sayMeasured({ value, unit, min, max }: ScoreLine['values']): string {
  if (value === null || value === undefined)
    return 'Not on the bench as left, so it meets nothing.';
  const asks = [
    typeof min === 'number' ? `at least ${figure(min)}` : null,
    typeof max === 'number' ? `at most ${figure(max)}` : null,
  ].filter((one) => one !== null);
  const left =
    typeof value === 'boolean'
      ? `Left at: ${value ? 'yes' : 'no'}`
      : `Left at ${figure(value)}${unit === null || unit === '' ? '' : ` ${unit}`}`;
  return asks.length === 0 ? `${left}.` : `${left}; asked is ${asks.join(' and ')} ${unit ?? ''}.`;
}

const PLAN_PART = {
  stance: 'Where to stand',
  stick: 'What to feed with',
  end: 'Who carries the end',
};

function tellPlan(
  task: Extract<FormTask, { kind: 'plan' }>,
  line: ScoreLine,
  graded: GradedSitting,
): Told {
  const part = line.about as keyof typeof PLAN_PART;
  const key = graded.key[task.id];
  const chosen = line.values['chosen'];
  const brings =
    key?.kind === 'plan' ? (key.parts[part].find(({ id }) => id === chosen)?.faults ?? []) : [];
  const right =
    key?.kind === 'plan' ? key.parts[part].filter(({ faults }) => faults.length === 0) : [];
  const said =
    typeof chosen !== 'string' ? 'Not chosen.' : `You chose: ${planWords(task, part, chosen)}.`;
  return {
    title: PLAN_PART[part],
    said:
      brings.length === 0
        ? said
        : `${said} It brings: ${brings.map(({ title }) => title).join('; ')}.`,
    why:
      line.points > 0
        ? null
        : `${brings.map(({ why }) => why).join(' ')} In order would be: ${right.map(({ id }) => planWords(task, part, id)).join('; or ')}.`.trim(),
  };
}

function tellStep(
  task: Extract<FormTask, { kind: 'react' }>,
  line: ScoreLine,
  { key }: GradedSitting,
): Told {
  const known = key[task.id];
  const step =
    known?.kind === 'react'
      ? [...known.steps, ...known.slips].find(({ id }) => id === line.about)
      : undefined;
  const title = step?.text ?? 'The order';
  switch (line.what) {
    case 'step': {
      const at = line.values['chosen'];
      return {
        title,
        said:
          at === null
            ? 'Left out.'
            : `You did it as number ${at}; its place is ${line.values['place']}.`,
        why: step?.why ?? null,
      };
    }
    case 'slip':
      return { title, said: 'This does not belong to it.', why: step?.why ?? null };
    default:
      return {
        title,
        said: `${line.values['right']} of ${line.values['pairs']} pairs of steps stand the right way round.`,
      };
  }
}

function tellFigure(
  task: Extract<FormTask, { kind: 'limit' }>,
  line: ScoreLine,
  { key }: GradedSitting,
): Told {
  const known = key[task.id];
  const source = known?.kind === 'limit' ? `From ${known.source.document}.` : null;
  if (line.what === 'figure') {
    const { value, figure: wanted, unit } = line.values;
    return {
      title: `${task.title}, by ${task.setTitle}`,
      said: `${value === null ? 'Not answered' : `You said ${value} ${unit}`}; it is ${figure(wanted)} ${unit}.`,
      why: source,
    };
  }
  const reading = task.readings.find(({ id }) => id === line.about);
  const { marked, meets } = line.values;
  return {
    title: `${task.title}: ${reading?.value ?? ''} ${task.unit}`,
    said: `You ${marked === true ? 'marked' : 'did not mark'} it; it ${meets === true ? 'meets' : 'misses'} the limit.`,
    why: source,
  };
}
