/** A drawing to mark, from the screen to mm of the model and back. Browser code. */

/** mm of the model, as the view has them: along or across, and up. */
export type Place = { readonly x: number; readonly y: number };

const sheetOf = (field: Element) => field.querySelector<SVGSVGElement>('svg.bench-drawing');

/** The model to screen pixels, or null while the drawing is not laid out. */
const toScreen = (field: Element): DOMMatrix | null =>
  field.querySelector<SVGGElement>('svg.model > g')?.getScreenCTM() ?? null;

/** A point of the screen as a place on the model. */
export function placeAt(field: Element, screen: Place): Place | null {
  const matrix = toScreen(field);
  return matrix && new DOMPoint(screen.x, screen.y).matrixTransform(matrix.inverse());
}

/** A place on the model in the units of the sheet, for drawing there. */
export function onSheet(field: Element, place: Place): Place | null {
  const [model, page] = [toScreen(field), sheetOf(field)?.getScreenCTM()];
  if (!model || !page) return null;
  return new DOMPoint(place.x, place.y).matrixTransform(model).matrixTransform(page.inverse());
}

/** The stretch of the model the drawing shows, mm. */
export function shown(field: Element): { low: Place; high: Place } | null {
  // the view box counts y down from the top of the clip; the model counts it up
  const box = field.querySelector('svg.model')?.getAttribute('viewBox')?.split(' ').map(Number);
  const [left, top, width, height] = box ?? [];
  if (left === undefined || top === undefined || !width || !height) return null;
  return { low: { x: left, y: -top - height }, high: { x: left + width, y: -top } };
}

function fromLine(at: Place, from: Place, to: Place): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((at.x - from.x) * dx + (at.y - from.y) * dy) / square;
  const share = Math.min(1, Math.max(0, along));
  return Math.hypot(at.x - from.x - share * dx, at.y - from.y - share * dy);
}

const fromLines = (at: Place, points: readonly Place[]): number =>
  Math.min(...points.slice(1).map((to, i) => fromLine(at, points[i] as Place, to)));

/** Whether a point lies within a loop of points: a ray to the right crosses it an odd number of times. */
const isWithin = (at: Place, loop: readonly Place[]): boolean =>
  loop.filter(({ x, y }, i) => {
    const last = loop.at(i - 1) as Place;
    return y > at.y !== last.y > at.y && at.x < x + ((at.y - y) * (last.x - x)) / (last.y - y);
  }).length %
    2 ===
  1;

/** Points along a shape that stand for its line. */
const MOST_POINTS = 600;

/** Screen pixels from a point to a shape as it is drawn; 0 inside a closed one. */
function fromShape(shape: SVGGeometryElement, screen: Place): number {
  const matrix = shape.getScreenCTM();
  if (matrix === null) return Number.POSITIVE_INFINITY;
  const inside = new DOMPoint(screen.x, screen.y).matrixTransform(matrix.inverse());
  const isClosed = /z\s*$/i.test(shape.getAttribute('d') ?? '');
  const isLine = shape.matches('[data-part="tooth-circle"]');
  if (isClosed && !isLine && shape.isPointInFill(inside)) return 0;
  const length = shape.getTotalLength();
  const steps = Math.min(MOST_POINTS, Math.max(2, Math.ceil(length)));
  const points = Array.from({ length: steps + 1 }, (_, i) =>
    shape.getPointAtLength((length * i) / steps).matrixTransform(matrix),
  );
  return fromLines(screen, points);
}

/** The same for a dimension drawn beside the part: all between its line and what it measures counts. */
function fromStretch(line: SVGGeometryElement, screen: Place): number {
  const taken = line.dataset['from']?.split(' ').map(Number);
  const matrix = line.getScreenCTM();
  if (taken === undefined || matrix === null) return fromShape(line, screen);
  const ends = [line.getPointAtLength(0), line.getPointAtLength(line.getTotalLength())];
  const loop = [
    new DOMPoint(taken[0], taken[1]),
    ...ends.map(({ x, y }) => new DOMPoint(x, y)),
    new DOMPoint(taken[2], taken[3]),
  ].map((point) => point.matrixTransform(matrix));
  return isWithin(screen, loop) ? 0 : fromLines(screen, [...loop, loop[0] as Place]);
}

/** mm from a place to the answer; null while the drawing is not laid out. */
export function offBy(field: HTMLElement, place: Place): number | null {
  const matrix = toScreen(field);
  if (matrix === null) return null;
  const screen = new DOMPoint(place.x, place.y).matrixTransform(matrix);
  const wanted = [...field.querySelectorAll<SVGElement>(field.dataset['wanted'] ?? 'none')];
  const shapes = wanted.flatMap((one) =>
    one instanceof SVGGeometryElement
      ? [one]
      : [...one.querySelectorAll<SVGGeometryElement>('path, circle')],
  );
  const away = shapes.map((shape) =>
    'stretch' in shape.dataset ? fromStretch(shape, screen) : fromShape(shape, screen),
  );
  return Math.min(...away) / Math.hypot(matrix.a, matrix.b);
}
