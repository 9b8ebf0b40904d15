import {
  type Bench,
  type Figure,
  findFigure,
  readBench,
  transition,
} from '../../../bench/index.ts';

type Group = Readonly<Record<string, unknown>>;

function setPath(value: unknown, [key, ...rest]: readonly string[], to: number): unknown {
  if (key === undefined) return to;
  if (Array.isArray(value)) return value.with(Number(key), setPath(value[Number(key)], rest, to));
  return { ...(value as Group), [key]: setPath((value as Group)[key], rest, to) };
}

/** The blade is raised as a hand does it: a knife fixed to the frame stays where it is. */
function raiseTo(bench: Bench, depth: number): Bench | null {
  const { bench: raised, effects } = transition(bench, {
    do: 'set',
    setting: 'arbor.depth',
    to: depth,
  });
  return effects.some(({ kind }) => kind === 'stopped' || kind === 'refused') ? null : raised;
}

/**
 * The bench with one number of its file changed, or null where no fitter could put that together.
 * @param field a field that is a number on this bench, such as `fence.toe`
 */
export function changeField(bench: Bench, field: string, to: number): Bench | null {
  if (field === 'arbor.depth') return raiseTo(bench, to);
  const read = readBench(setPath(bench, field.split('.'), to));
  return read.ok ? read.bench : null;
}

/** Steps along a change: enough for a bend to be seen. */
const STEPS = 60;

export type Changed = { readonly at: number; readonly bench: Bench | null };

/** The bench worked out again for each value of a field, from one end to the other. Teeth are whole. */
export function changeThrough(
  bench: Bench,
  { field, from, to }: { readonly field: string; readonly from: number; readonly to: number },
): readonly Changed[] {
  const { unit }: Figure = findFigure(bench, field);
  const values = Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS);
  const all = unit === 'count' || unit === 'years' ? values.map(Math.round) : values;
  return [...new Set(all)].map((at) => ({ at, bench: changeField(bench, field, at) }));
}
