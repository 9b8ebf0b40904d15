import { requireGrid, requireWhole } from './arguments.ts';
import { criticalValue, type Interval } from './interval.ts';
import { sumOf } from './moments.ts';

/** none: only the diagonal agrees; linear, quadratic: near misses count in part. */
export type KappaWeights = 'none' | 'linear' | 'quadratic';

export type RaterKappa = {
  readonly ratings: number;
  /** weighted share of agreement seen, 0 to 1 */
  readonly observed: number;
  /** weighted share expected by luck from the two raters' habits */
  readonly expected: number;
  /** at most 1; null when both raters used one and the same category throughout */
  readonly kappa: number | null;
  /** large-sample standard error (Fleiss, Cohen and Everitt 1969); null with kappa */
  readonly error: number | null;
  /** kappa plus or minus z standard errors, kept within -1 to 1; null with kappa */
  readonly interval: Interval | null;
};

/** Counts pairs of ratings into a square table: rows the first rater, columns the second. */
export function tallyRatings<Category extends string>(
  pairs: readonly (readonly [Category, Category])[],
  categories: readonly Category[],
): readonly (readonly number[])[] {
  const table = categories.map(() => categories.map(() => 0));
  for (const pair of pairs) {
    const [row, column] = pair.map((category) => categories.indexOf(category));
    const cells = row === undefined ? undefined : table[row];
    if (cells === undefined || column === undefined || column < 0) {
      throw new RangeError(
        `ratings must be among ${categories.join(', ')}, not ${pair.join(' / ')}.`,
      );
    }
    cells[column] = (cells[column] as number) + 1;
  }
  return table;
}

/** Agreement credited to categories i and j of k: Cicchetti and Allison 1971; Fleiss and Cohen 1973. */
function credit(weights: KappaWeights, i: number, j: number, k: number): number {
  if (weights === 'none') return i === j ? 1 : 0;
  const distance = Math.abs(i - j) / (k - 1);
  return 1 - (weights === 'linear' ? distance : distance ** 2);
}

/**
 * Cohen's kappa (1960) and weighted kappa (1968) of a square table of counts, 2 by 2 or larger:
 * rows one trainer, columns the other, categories in order where weights are used. The interval is
 * a large-sample one, narrow beyond truth for few ratings, and of no width when all agree.
 */
export function cohenKappa(
  table: readonly (readonly number[])[],
  weights: KappaWeights = 'none',
  confidence = 0.95,
): RaterKappa {
  const k = requireGrid('table', table, { rows: 2, columns: 2 });
  if (table.length !== k) {
    throw new RangeError(`table must be square, not ${table.length} rows of ${k}.`);
  }
  for (const row of table) for (const count of row) requireWhole('a count in the table', count, 0);
  const ratings = sumOf(table.map((row) => sumOf(row)));
  requireWhole('the number of ratings', ratings, 1);
  const z = criticalValue(confidence);

  const indexes = Array.from({ length: k }, (_, i) => i);
  const share = (i: number, j: number) => (table[i]?.[j] as number) / ratings;
  const rows = indexes.map((i) => sumOf(indexes.map((j) => share(i, j))));
  const columns = indexes.map((j) => sumOf(indexes.map((i) => share(i, j))));
  const overCells = (value: (i: number, j: number) => number) =>
    sumOf(indexes.flatMap((i) => indexes.map((j) => value(i, j))));
  const luck = (i: number, j: number) => (rows[i] as number) * (columns[j] as number);
  const w = (i: number, j: number) => credit(weights, i, j, k);

  const observed = overCells((i, j) => w(i, j) * share(i, j));
  const expected = overCells((i, j) => w(i, j) * luck(i, j));
  const room = 1 - expected;
  if (room < 1e-12) {
    return { ratings, observed, expected, kappa: null, error: null, interval: null };
  }
  const kappa = (observed - expected) / room;

  const rowCredit = indexes.map((i) => sumOf(indexes.map((j) => w(i, j) * (columns[j] as number))));
  const columnCredit = indexes.map((j) => sumOf(indexes.map((i) => w(i, j) * (rows[i] as number))));
  const pulled = overCells((i, j) => {
    const habits = (rowCredit[i] as number) + (columnCredit[j] as number);
    return share(i, j) * (w(i, j) - habits * (1 - kappa)) ** 2;
  });
  const centre = kappa - expected * (1 - kappa);
  const error = Math.sqrt(Math.max(0, pulled - centre ** 2) / ratings) / room;
  return {
    ratings,
    observed,
    expected,
    kappa,
    error,
    interval: { low: Math.max(-1, kappa - z * error), high: Math.min(1, kappa + z * error) },
  };
}
