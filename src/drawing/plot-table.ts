import { isPoint, type PlotRequest } from './plot-request.ts';

export type PlotColumn = { readonly title: string; readonly unit: string };

/** The values of a plot as rows, for whoever does not see it; `null` where a curve has no value. */
export type PlotTable = {
  readonly columns: readonly PlotColumn[];
  readonly rows: readonly (readonly (number | null)[])[];
};

/** Rows enough to follow a curve, few enough to be read. */
const MOST_ROWS = 13;

/** About evenly, ends included. */
function thin(values: readonly number[], most: number): number[] {
  if (values.length <= most) return [...values];
  const every = Math.ceil((values.length - 1) / (most - 1));
  const kept = values.filter((_, i) => i % every === 0);
  const last = values[values.length - 1] as number;
  return kept[kept.length - 1] === last ? kept : [...kept, last];
}

/**
 * The same values the plot draws, thinned to a table. Each row is one value of the axis `by`, which
 * the curves must share; a curve that jumps there is told by the value before the jump.
 */
export function tabulatePlot(request: PlotRequest, by: 'x' | 'y' = 'x'): PlotTable {
  const other = by === 'x' ? 'y' : 'x';
  const shared = request.curves.flatMap(({ points }) => points.filter(isPoint).map((p) => p[by]));
  const all = [...new Set(shared)].sort((a, b) => a - b);
  const isAlone = request.curves.length === 1;
  return {
    columns: [
      { title: request[by].title, unit: request[by].unit },
      ...request.curves.map(({ label, name }) => ({
        title: name ?? (isAlone ? request[other].title : label),
        unit: request[other].unit,
      })),
    ],
    rows: thin(all, MOST_ROWS).map((value) => [
      value,
      ...request.curves.map(
        ({ points }) => points.find((point) => point?.[by] === value)?.[other] ?? null,
      ),
    ]),
  };
}
