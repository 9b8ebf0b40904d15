import { type Bench, type Figure, findFigure } from '../../../bench/index.ts';
import type { PlotCurve, PlotRequest } from '../../../drawing/index.ts';
import type { Speaker } from '../../../words/say.ts';
import { type Changed, changeField, changeThrough } from './change-field.ts';
import { axisTitle, axisUnit, nameFigure } from './figure-names.ts';
import {
  type AskedLimit,
  isSteady,
  type LimitEnds,
  limitEnds,
  lineOf,
  nameEnd,
} from './limit-lines.ts';
import type { Named } from './ready-plots.ts';

export type Change = {
  /** field of the bench file that is changed: `arbor.depth` */
  readonly field: string;
  readonly from: number;
  readonly to: number;
  /** measures, fields, workings or sums drawn against it, all of one unit */
  readonly of: readonly string[];
  readonly limits: readonly AskedLimit[];
};

/** Curves told apart by their lines; a fifth would look like the first. */
const MOST_CURVES = 4;
/** Points a curve needs to be one. */
const FEWEST_POINTS = 2;
/** Letters the title of an axis has room for, its unit included. */
const LONGEST_TITLE = 42;

function valueAt({ bench }: Changed, of: string): number | null {
  if (bench === null) return null;
  try {
    return findFigure(bench, of).value;
  } catch {
    // past the point where the bench gives it a meaning the pen is lifted
    return null;
  }
}

/** The figure as it is now, and refusals for its writer. @throws Error in one sentence */
function figuresNow(bench: Bench, { field, from, to, of }: Change, { title }: Named) {
  const refuse = (why: string) => new Error(`The plot "${title}" ${why}.`);
  if (!(from < to)) throw refuse('needs from to be less than to');
  if (/[^\w.]/.test(field)) throw refuse('changes one field of the bench file, and no sum');
  const now = findFigure(bench, field);
  if (changeField(bench, field, now.value) === null)
    throw refuse(`changes ${field}, which is no field of the bench file`);
  const figures = of.map((one) => findFigure(bench, one));
  const [first] = figures;
  if (first === undefined) throw refuse('names nothing to draw');
  const other = figures.find(({ unit }) => unit !== first.unit);
  if (other !== undefined)
    throw refuse(`draws ${first.unit} and ${other.unit} on one axis; give each a plot of its own`);
  return { now, first };
}

/**
 * What becomes of measures when one field of the bench is changed: the bench is worked out anew for
 * each value, and where it stands now is marked on the first curve. Published limits stand across it; one
 * that depends on what is changed is a curve.
 * @throws Error in one sentence when the field is no number of this bench, or nothing can be worked out
 */
export function plotChange(
  bench: Bench,
  change: Change,
  named: Named,
  say: Speaker,
): { readonly request: PlotRequest; readonly key: readonly string[] } {
  const { field, from, to, of, limits } = change;
  const { now, first } = figuresNow(bench, change, named);
  const steps = changeThrough(bench, change);
  const isAlong = (asked: AskedLimit) => asked.limit.measure === field;
  const stray = limits.find(
    (asked) => !isAlong(asked) && !of.some((one) => one.includes(asked.limit.measure)),
  );
  if (stray !== undefined)
    throw new Error(
      `The plot "${named.title}" does not show ${stray.limit.measure}, which the limit ${stray.limit.id} is about.`,
    );
  const ends = limits.flatMap((asked): { end: LimitEnds; axis: 'x' | 'y' }[] => {
    const found = limitEnds(
      asked,
      steps.map((step) => step.bench),
    );
    return found.map((end) => ({ end, axis: isAlong(asked) ? 'x' : 'y' }));
  });
  const leaning = ends.filter(({ end }) => !isSteady(end));
  const curves = [
    ...of.map((one) => ({
      name: nameFigure(one, say),
      values: steps.map((step) => valueAt(step, one)),
    })),
    ...leaning.map(({ end }) => ({ name: nameEnd(end, say), values: end.along })),
  ];
  if (curves.length > MOST_CURVES)
    throw new Error(
      `The plot "${named.title}" has ${curves.length} curves; at most ${MOST_CURVES}.`,
    );
  for (const { name, values } of curves) {
    if (values.filter((value) => value !== null).length < FEWEST_POINTS)
      throw new Error(
        `The plot "${named.title}" has no values of ${name} from ${from} to ${to} on this bench.`,
      );
  }
  return layOut(steps, curves, {
    named,
    say,
    x: { title: nameFigure(field, say), figure: now },
    y: first,
    lines: ends.filter(({ end }) => isSteady(end)).map(({ end, axis }) => lineOf(end, axis, say)),
    isShown: now.value >= from && now.value <= to,
  });
}

type Layout = {
  readonly named: Named;
  readonly say: Speaker;
  readonly x: { readonly title: string; readonly figure: Figure };
  readonly y: Figure;
  readonly lines: NonNullable<PlotRequest['lines']>;
  readonly isShown: boolean;
};

/** One curve is named by its axis where its name has room there; else the curves are numbered, with a key. */
function layOut(
  steps: readonly Changed[],
  curves: readonly { readonly name: string; readonly values: readonly (number | null)[] }[],
  { named, say, x, y, lines, isShown }: Layout,
): { request: PlotRequest; key: readonly string[] } {
  const unit = axisUnit(y.unit, say);
  const [only, ...more] = curves;
  const fits = more.length === 0 && (only?.name ?? '').length + unit.length < LONGEST_TITLE;
  const drawn = curves.map(({ name, values }, i): PlotCurve => {
    const points = steps.map(({ at }, k) => {
      const value = values[k] ?? null;
      return value === null ? null : { x: at, y: value };
    });
    return { label: fits ? '' : String(i + 1), name, points };
  });
  return {
    request: {
      ...named,
      x: { title: x.title, unit: axisUnit(x.figure.unit, say) },
      y: {
        title: fits && only !== undefined ? only.name : axisTitle(y.unit, say),
        unit,
        // a level in decibels has no nothing to start from
        reaches: y.unit.startsWith('dB') ? [] : [0],
      },
      curves: drawn,
      marks: isShown ? [{ x: x.figure.value, y: y.value, label: say('lesson.plot.now') }] : [],
      lines,
    },
    key: fits ? [] : curves.map(({ name }) => name),
  };
}
