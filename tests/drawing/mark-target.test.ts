import { expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { drawBench, PART_LABELS, selectTarget, type View } from '../../src/drawing/index.ts';
import { loadBenches } from '../../src/store/content-files.ts';

/** What can be asked for on a drawing can be found in its markup, in every view that names it. */
const bench = loadBenches().get('lesson-bench') as Bench;
const VIEWS: readonly View[] = ['side', 'end', 'plan', 'knife', 'teeth'];
const named = VIEWS.flatMap((view) =>
  PART_LABELS.filter((part) => draw(view, [part]).includes('class="balloon-mark"')).map(
    (part) => [view, part] as const,
  ),
);
function draw(
  view: View,
  labels: readonly (typeof PART_LABELS)[number][],
  dimensions: string[] = [],
) {
  const base = { view, title: '', description: '', labels };
  // the end view names its parts in the close-up a kerf brings
  const close = view === 'end' && dimensions.length === 0 ? ['blade.kerf'] : dimensions;
  return drawBench(bench, { ...base, dimensions: close as never });
}

it('names parts in four views', () => {
  expect(new Set(named.map(([view]) => view))).toEqual(new Set(['side', 'end', 'plan', 'knife']));
  expect(named.length).toBeGreaterThan(18);
});

it.each(named)('in the %s view the %s can be found', (view, part) => {
  const names = [...selectTarget({ part }, view).matchAll(/data-part="([\w-]+)"/g)].map(
    ([, name]) => name,
  );
  expect(names.length).toBeGreaterThan(0);
  const svg = draw(view, [part]);
  const found = names.filter((name) => svg.includes(`data-part="${name}"`));
  expect(found.length).toBeGreaterThan(0);
});

it('finds the stretch of a dimension, with the points it is taken from where it stands aside', () => {
  expect(selectTarget({ dimension: 'knife.gapAtTable' }, 'knife')).toBe(
    '[data-measure="knife.gapAtTable"] [data-stretch]',
  );
  const gap = draw('knife', [], ['knife.gapAtTable']);
  expect(gap).toMatch(/data-measure="knife.gapAtTable"[^>]*><path[^>]*data-stretch/);
  expect(gap).not.toContain('data-from');
  expect(draw('side', [], ['blade.projection'])).toMatch(
    /data-stretch="" data-from="-?[\d.]+ [\d.]+ -?[\d.]+ [\d.]+"/,
  );
});
