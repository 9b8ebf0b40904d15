import type { DimensionId } from './measures.ts';
import type { PartLabel, View } from './view.ts';

/** What is to be found on a drawing: a part, or where a dimension is taken. */
export type MarkTarget = { readonly part: PartLabel } | { readonly dimension: DimensionId };

/** Names parts have in the markup of a view, where they are not those of their balloons. */
const NAMES: Partial<Record<PartLabel, Partial<Record<View, readonly string[]>>>> = {
  // the teeth stand along their circle; from the end each has its own outline
  teeth: { side: ['tooth-circle'], knife: ['tooth-circle'], end: ['teeth'] },
  blade: { end: ['plate'] },
  guard: { side: ['guard', 'guard-side'] },
  posts: { side: ['post'] },
};

/**
 * Where a target stands in the markup of a drawing, as a selector: the shapes of a part, or the measured
 * stretch of a dimension. A dimension drawn beside the part carries what it measures in `data-from`.
 */
export function selectTarget(target: MarkTarget, view: View): string {
  if ('dimension' in target) return `[data-measure="${target.dimension}"] [data-stretch]`;
  const names = NAMES[target.part]?.[view] ?? [target.part];
  return names.map((name) => `[data-part="${name}"]`).join(', ');
}
