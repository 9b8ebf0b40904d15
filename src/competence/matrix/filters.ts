import type { Instant } from '../dates.ts';
import { endsWithin, type Known, type MatrixCell, type MatrixState } from './cell.ts';

/** What a matrix can be asked for by state. `due-30`: may work now, and it ends within 30 days. */
export const STATE_FILTERS = [
  'may',
  'may-supervised',
  'may-not',
  'rests',
  'due-30',
  'due-60',
  'due-90',
  'gap',
] as const;
export type StateFilter = (typeof STATE_FILTERS)[number];

/** What a matrix is narrowed to; what is left out narrows nothing. */
export type MatrixFilters = {
  /** opaque ids */
  readonly people?: readonly string[];
  /** ids of benches */
  readonly benches?: readonly string[];
  readonly works?: readonly string[];
  readonly state?: StateFilter;
  readonly known?: Known;
};

/** Days ahead that a state filter looks, or null for one that looks at no day. */
export const daysOf = (filter: StateFilter): number | null =>
  filter.startsWith('due-') ? Number(filter.slice('due-'.length)) : null;

const NOT: readonly MatrixState[] = ['may-not', 'rests'];

/**
 * Whether a cell is one of those asked for. Who rests may not work either. `gap` is about a place, not about
 * a person, and lets every cell of it through.
 */
export function isAskedFor(
  cell: Pick<MatrixCell, 'state' | 'until'>,
  at: Instant,
  filter: StateFilter | undefined,
): boolean {
  if (filter === undefined || filter === 'gap') return true;
  const days = daysOf(filter);
  if (days !== null) return endsWithin(cell, at, days);
  return filter === 'may-not' ? NOT.includes(cell.state) : cell.state === filter;
}
