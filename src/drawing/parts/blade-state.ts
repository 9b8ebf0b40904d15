import { asMounted, type Bench, type BladeOutline, scratchLine } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { closedPath, openPath, shape } from '../markup.ts';

/** From the blade's own plane, first tooth straight up, to the model; mm. */
type Placed = (point: Point) => Point;

/** What an eye finds on the plate and the teeth, over the outline: resin, rounded points, torn metal, cracks. Model markup, mm. */
export function drawBladeState(bench: Bench, drawn: BladeOutline, placed: Placed): string {
  const { condition } = bench.blade;
  return [
    condition.burnt ? drawBurn(bench, placed) : '',
    condition.resin === true ? drawResin(bench, drawn, placed) : '',
    ...drawn.teeth.map((tooth) =>
      tooth.state === 'whole'
        ? ''
        : shape(openPath([...tooth.back, tooth.tip].map(placed)), 'heavy', 'none', {
            'data-part': `${tooth.state}-tooth`,
          }),
    ),
    condition.sharpness === 'sharp' ? '' : drawRounded(bench, drawn, placed),
    ...(condition.scratches ?? []).map((scratch) =>
      shape(openPath(scratchLine(bench.blade, scratch).ends.map(placed)), 'thin', 'none', {
        'data-part': 'scratch',
      }),
    ),
    ...drawn.cracks.map((crack) =>
      shape(openPath(crack.map(placed)), 'outline', 'none', { 'data-part': 'crack' }),
    ),
  ].join('');
}

/** Patches that have rubbed and run hot, longer round the plate than across it: three, one in sight wherever it stops. */
function drawBurn(bench: Bench, placed: Placed): string {
  const { diameter, gulletDepth } = bench.blade;
  const root = diameter / 2 - gulletDepth;
  const patches = [0, 1, 2].map((k) =>
    closedPath(
      Array.from({ length: 28 }, (_, i) => {
        const turn = (i * 2 * Math.PI) / 28;
        const ragged = 0.85 + 0.15 * Math.sin(i * 2.4);
        const angle =
          (118 * Math.PI) / 180 + (k * 2 * Math.PI) / 3 + 0.42 * ragged * Math.cos(turn);
        const radius = Math.min(root - 0.4, root * (0.88 + 0.13 * ragged * Math.sin(turn)));
        return placed({ x: radius * Math.cos(angle), y: radius * Math.sin(angle) });
      }),
    ),
  );
  return shape(patches.join(''), 'thin', 'ink', {
    'fill-opacity': 0.24,
    'stroke-opacity': 0,
    'data-part': 'burn',
  });
}

/** A dark tone on every tooth and a little way in from the gullets. */
function drawResin(bench: Bench, { teeth, outline }: BladeOutline, placed: Placed): string {
  const { diameter, gulletDepth } = bench.blade;
  const inner = (diameter / 2 - 1.9 * gulletDepth) / (diameter / 2);
  const steps = 72;
  const hole = Array.from({ length: steps }, (_, i) => {
    const angle = (-i * 2 * Math.PI) / steps;
    const radius = inner * (diameter / 2) + (i % 3 === 0 ? 0.3 * gulletDepth : 0);
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });
  // the points still cut: the crust stops short of them
  const tips = new Set(teeth.map(({ tip }) => tip));
  const crust = outline.filter((p) => !tips.has(p));
  return shape(closedPath(crust.map(placed)) + closedPath(hole.map(placed)), 'thin', 'ink', {
    'fill-opacity': 0.34,
    'stroke-opacity': 0,
    'fill-rule': 'evenodd',
    'data-part': 'resin',
  });
}

/** A heavy line over a point that has gone round: along its back and a little down its face. */
function drawRounded(bench: Bench, { teeth }: BladeOutline, placed: Placed): string {
  const { sharpness } = bench.blade.condition;
  const reach = bench.blade.gulletDepth * 0.26;
  const toward = (from: Point, to: Point | undefined, mm: number): Point => {
    if (to === undefined) return from;
    const share = mm / Math.hypot(to.x - from.x, to.y - from.y);
    return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  };
  return teeth
    .filter(({ state, index }) => state === 'whole' && (sharpness === 'dull' || index % 3 === 0))
    .map(({ tip, back, face }) =>
      shape(
        openPath([toward(tip, back[0], reach), tip, toward(tip, face[0], reach * 0.6)].map(placed)),
        'heavy',
        'none',
        { 'data-part': 'rounded-point' },
      ),
    )
    .join('');
}

/** The blade as it is mounted, turned on by `turn` radians about the arbor. */
export function placeBlade(bench: Bench, turn: number): Placed {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  // asMounted takes a direction; of a point it mirrors x
  const way = Math.cos(asMounted(bench.blade, 0));
  return ({ x, y }) => ({
    x: way * x * cos - y * sin,
    y: way * x * sin + y * cos - bench.arbor.depth,
  });
}
