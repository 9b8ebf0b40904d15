import { REMEDIES } from '../../limits/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Finding, FormTask, GradedSitting, ScoreLine, TaskGrade } from './graded.ts';
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

const verdictOf = ({ points, of }: ScoreLine): ToldLine['verdict'] =>
  points < 0 ? 'error' : points >= of ? 'right' : points > 0 ? 'partly' : 'wrong';

type Told = Pick<ToldLine, 'title' | 'said'> & Partial<Pick<ToldLine, 'why' | 'sure'>>;

/** The lines of one task in words. Every figure comes from the grade, the form or its key. */
export function tellLines(
  task: FormTask,
  grade: TaskGrade,
  graded: GradedSitting,
  say: Speaker,
): ToldLine[] {
  return grade.lines.map((line) => ({
    verdict: verdictOf(line),
    why: null,
    sure: null,
    ...tellLine(task, line, graded, say),
    points: line.points,
    of: line.of,
    critical: line.critical,
  }));
}

function tellLine(task: FormTask, line: ScoreLine, graded: GradedSitting, say: Speaker): Told {
  switch (task.kind) {
    case 'find':
      return tellFinding(line, graded, say);
    case 'set':
      return tellSetting(task, line, graded, say);
    case 'plan':
      return tellPlan(task, line, graded, say);
    case 'react':
      return tellStep(task, line, graded, say);
    case 'limit':
      return tellFigure(task, line, graded, say);
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

function tellFinding(line: ScoreLine, graded: GradedSitting, say: Speaker): Told {
  const fault = faultOf(graded, line.about);
  const finding = findingFor(line, graded);
  const sure = finding === undefined ? null : say(`review.line.sure.${finding.confidence}`);
  const title = titleOf(graded, line.about);
  const remedy =
    finding === undefined
      ? ''
      : say.maybe(`fault-words.remedy.${finding.remedy}`, REMEDIES[finding.remedy].title);
  switch (line.what) {
    case 'found':
      return line.values['remedyRight'] === true
        ? { title, sure, said: say('review.line.found', { remedy }) }
        : {
            title,
            sure,
            said: say('review.line.found-wrong', { remedy }),
            why: fault?.do ?? null,
          };
    case 'missed':
      return {
        title,
        said: say('review.line.missed', { looks: fault?.looks ?? '' }),
        why: fault === undefined ? null : `${fault.why} ${fault.do}`,
      };
    case 'wrong-fault':
      return { title, sure, said: say('review.line.wrong-fault') };
    default:
      return {
        title,
        sure,
        said:
          line.values['lookAlike'] === null
            ? say('review.line.in-order')
            : say('review.line.look-alike'),
      };
  }
}

function tellSetting(
  task: Extract<FormTask, { kind: 'set' }>,
  line: ScoreLine,
  graded: GradedSitting,
  say: Speaker,
): Told {
  const { values, about } = line;
  const named = (items: readonly { id: string; title: string }[]) =>
    items.find(({ id }) => id === about)?.title ?? say('review.line.none');
  switch (line.what) {
    case 'blade':
      return {
        title: say('review.line.blade', { title: named(task.blades) }),
        said:
          values['fits'] !== true
            ? say('review.line.blade.unfit')
            : line.points >= line.of
              ? say('review.line.blade.best')
              : say('review.line.blade.will-do'),
      };
    case 'knife':
      return {
        title: say('review.line.knife', { title: named(task.knives) }),
        said: line.points > 0 ? say('review.line.knife.right') : say('review.line.knife.wrong'),
      };
    case 'insert': {
      const slot = task.inserts.find(({ id }) => id === about)?.slot;
      return {
        title:
          slot === undefined ? say('review.line.insert') : say('review.line.insert.slot', { slot }),
        said: line.points > 0 ? say('review.line.insert.right') : say('review.line.insert.wrong'),
      };
    }
    case 'setting':
      return {
        title: say.maybe(`names.measure.${about}`, about),
        said: sayMeasured(values, say),
      };
    case 'job':
      return {
        title: say('review.line.fence'),
        said: say('review.line.fence.left', {
          value: String(values['value']),
          wanted: String(values['wanted']),
        }),
      };
    default:
      return {
        title: titleOf(graded, about),
        said: say('review.line.left'),
        why: faultOf(graded, about)?.do ?? null,
      };
  }
}

const figure = (value: unknown) => (typeof value === 'number' ? Number(value.toFixed(2)) : value);

/** What a setting was left at, and what the deciding limit asks. */
function sayMeasured({ value, unit, min, max }: ScoreLine['values'], say: Speaker): string {
  if (value === null || value === undefined) return say('review.line.off');
  const size = (end: unknown) => say.figures(`${figure(end)} ${unit ?? ''}`.trim());
  const least = typeof min === 'number' ? say('names.asks.at-least', { size: size(min) }) : null;
  const most = typeof max === 'number' ? say('names.asks.at-most', { size: size(max) }) : null;
  const asked =
    least !== null && most !== null ? say('names.asks.both', { least, most }) : (least ?? most);
  const left =
    typeof value === 'boolean' ? say(value ? 'names.value.yes' : 'names.value.no') : size(value);
  return asked === null
    ? say('review.line.left-at', { value: left })
    : say('review.line.asked', { value: left, asked });
}

function tellPlan(
  task: Extract<FormTask, { kind: 'plan' }>,
  line: ScoreLine,
  graded: GradedSitting,
  say: Speaker,
): Told {
  const part = line.about as 'stance' | 'stick' | 'end';
  const key = graded.key[task.id];
  const chosen = line.values['chosen'];
  const brings =
    key?.kind === 'plan' ? (key.parts[part].find(({ id }) => id === chosen)?.faults ?? []) : [];
  const right =
    key?.kind === 'plan' ? key.parts[part].filter(({ faults }) => faults.length === 0) : [];
  const what = typeof chosen === 'string' ? planWords(task, part, chosen, say) : null;
  const faults = brings.map(({ title }) => title).join('; ');
  return {
    title: say(`review.line.${part}`),
    said:
      what === null
        ? say('review.line.not-chosen')
        : say(brings.length === 0 ? 'review.line.chose' : 'review.line.brings', { what, faults }),
    why:
      line.points > 0
        ? null
        : [
            ...brings.map(({ why }) => why),
            say('review.line.in-order-would', {
              what: right
                .map(({ id }) => planWords(task, part, id, say))
                .reduce((one, other) => say('review.line.or', { one, other })),
            }),
          ].join(' '),
  };
}

function tellStep(
  task: Extract<FormTask, { kind: 'react' }>,
  line: ScoreLine,
  { key }: GradedSitting,
  say: Speaker,
): Told {
  const known = key[task.id];
  const step =
    known?.kind === 'react'
      ? [...known.steps, ...known.slips].find(({ id }) => id === line.about)
      : undefined;
  const title = step?.text ?? say('review.line.order');
  switch (line.what) {
    case 'step': {
      const at = line.values['chosen'];
      return {
        title,
        said:
          at === null
            ? say('review.line.left-out')
            : say('review.line.step', { at: String(at), place: String(line.values['place']) }),
        why: step?.why ?? null,
      };
    }
    case 'slip':
      return { title, said: say('review.line.slip'), why: step?.why ?? null };
    default:
      return {
        title,
        said: say('review.line.pairs', {
          right: String(line.values['right']),
          pairs: String(line.values['pairs']),
        }),
      };
  }
}

function tellFigure(
  task: Extract<FormTask, { kind: 'limit' }>,
  line: ScoreLine,
  { key }: GradedSitting,
  say: Speaker,
): Told {
  const known = key[task.id];
  const source =
    known?.kind === 'limit' ? say('review.line.from', { document: known.source.document }) : null;
  if (line.what === 'figure') {
    const { value, figure: wanted, unit } = line.values;
    return {
      title: say('review.line.by', { title: task.title, set: task.setTitle }),
      said: say(value === null ? 'review.line.figure.none' : 'review.line.figure', {
        value: String(value),
        wanted: String(figure(wanted)),
        unit: String(unit),
      }),
      why: source,
    };
  }
  const reading = task.readings.find(({ id }) => id === line.about);
  const { marked, meets } = line.values;
  return {
    title: say('review.line.reading', {
      title: task.title,
      value: reading?.value ?? '',
      unit: task.unit,
    }),
    said: say(
      `review.line.${marked === true ? 'marked' : 'unmarked'}.${meets === true ? 'meets' : 'misses'}`,
    ),
    why: source,
  };
}
