import { requireGrid, requireWhole } from './arguments.ts';
import { gaussHermite, type Quadrature } from './quadrature.ts';

/** A row of marks and how many people gave it; counts 1 or more. */
export type MarkPattern = { readonly marks: readonly (0 | 1)[]; readonly count: number };

export type TwoParameterItem = {
  /** a: slope of the curve at its middle, per standard deviation of ability */
  readonly discrimination: number;
  /** b: ability at which half get it right, in standard deviations; high is hard */
  readonly difficulty: number;
};

export type TwoParameterFit = {
  readonly people: number;
  readonly items: readonly TwoParameterItem[];
  /** marginal log-likelihood of the data, without the multinomial constant */
  readonly logLikelihood: number;
  readonly iterations: number;
  /** false when the steps ran out or a slope ran away: then show nothing */
  readonly converged: boolean;
};

/** ln(odds of right) = slope * ability + intercept. */
type Line = { slope: number; intercept: number };

const POINTS = 21;
const TOLERANCE = 1e-9;
const MAX_ITERATIONS = 5000;
/** A slope beyond this is a step, not a curve: the data cannot place it. */
const STEEPEST = 15;

const chanceRight = ({ slope, intercept }: Line, ability: number): number =>
  1 / (1 + Math.exp(-(slope * ability + intercept)));

/** Expected people, and people right on each item, at each node; and the log-likelihood. */
function expectAnswers(patterns: readonly MarkPattern[], lines: readonly Line[], grid: Quadrature) {
  const people = grid.nodes.map(() => 0);
  const right = lines.map(() => grid.nodes.map(() => 0));
  const chances = lines.map((line) => grid.nodes.map((node) => chanceRight(line, node)));
  let logLikelihood = 0;
  for (const { marks, count } of patterns) {
    const joint = grid.weights.map((weight, q) =>
      marks.reduce<number>((product, mark, i) => {
        const chance = chances[i]?.[q] as number;
        return product * (mark === 1 ? chance : 1 - chance);
      }, weight),
    );
    const whole = joint.reduce((sum, value) => sum + value, 0);
    logLikelihood += count * Math.log(whole);
    joint.forEach((value, q) => {
      const share = (count * value) / whole;
      people[q] = (people[q] as number) + share;
      marks.forEach((mark, i) => {
        const row = right[i] as number[];
        if (mark === 1) row[q] = (row[q] as number) + share;
      });
    });
  }
  return { people, right, logLikelihood };
}

/** One Newton step of a logistic regression of right out of people on the nodes. */
function improve(
  line: Line,
  right: readonly number[],
  people: readonly number[],
  grid: Quadrature,
) {
  let [g0, g1, h00, h01, h11] = [0, 0, 0, 0, 0];
  grid.nodes.forEach((node, q) => {
    const chance = chanceRight(line, node);
    const n = people[q] as number;
    const gap = (right[q] as number) - n * chance;
    const weight = n * chance * (1 - chance);
    g0 += gap;
    g1 += gap * node;
    h00 += weight;
    h01 += weight * node;
    h11 += weight * node * node;
  });
  const determinant = h00 * h11 - h01 * h01;
  if (!(determinant > 0)) return line;
  // at most one unit at a time, so that a flat start cannot throw it away
  const limit = (step: number) => Math.max(-1, Math.min(1, step));
  return {
    slope: line.slope + limit((h00 * g1 - h01 * g0) / determinant),
    intercept: line.intercept + limit((h11 * g0 - h01 * g1) / determinant),
  };
}

function checkPatterns(patterns: readonly MarkPattern[]): number {
  const items = requireGrid(
    'patterns',
    patterns.map(({ marks }) => marks),
    { rows: 1, columns: 3 },
  );
  for (const { marks, count } of patterns) {
    requireWhole('the count of a pattern', count, 1);
    for (const mark of marks) requireWhole('a mark', mark, 0, 1);
  }
  return items;
}

/**
 * Two-parameter logistic model, P(right) = 1 / (1 + exp(-a (ability - b))), abilities standard
 * normal, by marginal maximum likelihood (Bock and Aitkin 1981, EM with 21 Gauss-Hermite points).
 * 3 items or more: fewer do not settle it. Null when an item was answered alike by all. Every
 * item must have been asked of everyone; see completeRows.
 */
export function fitTwoParameter(patterns: readonly MarkPattern[]): TwoParameterFit | null {
  const items = checkPatterns(patterns);
  const people = patterns.reduce((sum, { count }) => sum + count, 0);
  const shares = Array.from(
    { length: items },
    (_, i) => patterns.reduce((sum, p) => sum + p.count * (p.marks[i] as number), 0) / people,
  );
  if (shares.some((share) => share <= 0 || share >= 1)) return null;

  const grid = gaussHermite(POINTS);
  let lines: Line[] = shares.map((p) => ({ slope: 1, intercept: Math.log(p / (1 - p)) }));
  let iterations = 0;
  let settled = false;
  while (!settled && iterations < MAX_ITERATIONS) {
    iterations += 1;
    const expected = expectAnswers(patterns, lines, grid);
    const next = lines.map((line, i) =>
      improve(line, expected.right[i] as number[], expected.people, grid),
    );
    const moved = next.map((line, i) => {
      const old = lines[i] as Line;
      return Math.max(Math.abs(line.slope - old.slope), Math.abs(line.intercept - old.intercept));
    });
    lines = next;
    if (lines.some(({ slope }) => Math.abs(slope) > STEEPEST)) break;
    settled = Math.max(...moved) < TOLERANCE;
  }
  return {
    people,
    items: lines.map(({ slope, intercept }) => ({
      discrimination: slope,
      difficulty: -intercept / slope,
    })),
    logLikelihood: expectAnswers(patterns, lines, grid).logLikelihood,
    iterations,
    converged: settled,
  };
}

/** Counts equal rows, in the order they first appear. */
export function countPatterns(rows: readonly (readonly (0 | 1)[])[]): readonly MarkPattern[] {
  const counts = new Map<string, { marks: readonly (0 | 1)[]; count: number }>();
  for (const marks of rows) {
    const key = marks.join('');
    const entry = counts.get(key) ?? { marks, count: 0 };
    entry.count += 1;
    counts.set(key, entry);
  }
  return [...counts.values()];
}
