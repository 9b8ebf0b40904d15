import type { Bench, Measures } from '../../bench/index.ts';
import type { Limit, Result } from '../../limits/index.ts';

/**
 * What a limit asks, whether or not it is in force on this bench: a sentence may tell the figure for
 * softwood beside a bench that saws oak. An end that hangs on a part that is off is null.
 */
export function endsAsked(
  { wanted }: Limit,
  bench: Bench,
  measures: Measures,
): Pick<Result, 'min' | 'max'> {
  if (wanted.kind !== 'size') return { min: null, max: null };
  const { min, max } = wanted;
  return {
    min: typeof min === 'function' ? min(bench, measures) : min,
    max: typeof max === 'function' ? max(bench, measures) : max,
  };
}
