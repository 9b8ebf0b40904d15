import { formatLength } from '../../geometry/index.ts';
import { figuresIn } from '../../words/index.ts';
import { pageLanguage } from '../../words/spoken.ts';
import type { Judged } from './judge-answer.ts';
import { say } from './words.ts';

/** mm of the model, as the view has them: along or across, and up. */
type Place = { readonly x: number; readonly y: number };

const SVG = 'http://www.w3.org/2000/svg';
const STEP = 5;
const FINE_STEP = 1;

const sayLength = (mm: number): string =>
  figuresIn(
    pageLanguage(),
    formatLength(
      Math.round(Math.abs(mm)),
      document.documentElement.dataset['unit'] === 'inch' ? 'inch' : 'mm',
      0,
    ),
  );

const sheetOf = (field: Element) => field.querySelector<SVGSVGElement>('svg.bench-drawing');
const modelOf = (field: Element) => field.querySelector<SVGGElement>('svg.model > g');

/** Screen pixels to the model, or null while the drawing is not laid out. */
const toScreen = (field: Element): DOMMatrix | null => modelOf(field)?.getScreenCTM() ?? null;

const placeAt = (field: Element, screen: Place): Place | null => {
  const matrix = toScreen(field);
  return matrix === null
    ? null
    : new DOMPoint(screen.x, screen.y).matrixTransform(matrix.inverse());
};

/** Where the cross is in words, so that it can be moved without being seen. */
function sayPlace(view: string, { x, y }: Place): string {
  const kind = view === 'plan' || view === 'end' ? view : 'side';
  const across = say(x < 0 ? 'mark.toward' : 'mark.away');
  const up =
    kind === 'plan'
      ? say(y > 0 ? 'mark.left' : 'mark.right')
      : say(y < 0 ? 'mark.below' : 'mark.above');
  const aside = say(x < 0 ? 'mark.left' : 'mark.right');
  return kind === 'end'
    ? say('mark.at.end', { across: sayLength(x), side: aside, up: sayLength(y), way: up })
    : say(`mark.at.${kind}`, { across: sayLength(x), way: across, up: sayLength(y), side: up });
}

function drawCross(field: HTMLElement, place: Place): void {
  const sheet = sheetOf(field);
  const model = toScreen(field);
  const page = sheet?.getScreenCTM();
  if (sheet === null || model === null || page == null) return;
  const at = new DOMPoint(place.x, place.y).matrixTransform(model).matrixTransform(page.inverse());
  let cross = sheet.querySelector<SVGPathElement>('.mark-cross');
  if (cross === null) {
    cross = document.createElementNS(SVG, 'path');
    cross.setAttribute('class', 'mark-cross');
    sheet.append(cross);
  }
  const arm = 22;
  cross.setAttribute(
    'd',
    `M${at.x - arm} ${at.y}H${at.x + arm}M${at.x} ${at.y - arm}V${at.y + arm}M${at.x - 9} ${at.y}a9 9 0 1 0 18 0a9 9 0 1 0 -18 0`,
  );
}

const places = new WeakMap<HTMLElement, Place>();

function put(field: HTMLElement, place: Place): void {
  places.set(field, place);
  drawCross(field, place);
  const line = field.querySelector<HTMLElement>('[data-mark-at]');
  if (line) line.textContent = sayPlace(field.dataset['view'] ?? 'side', place);
  field.dispatchEvent(new CustomEvent('markchange', { bubbles: true }));
}

/** The middle of what is drawn, where the cross starts by keyboard. */
function middle(field: HTMLElement): Place | null {
  const box = sheetOf(field)?.getBoundingClientRect();
  return box === undefined
    ? null
    : placeAt(field, { x: box.x + box.width / 2, y: box.y + box.height / 2 });
}

const WAYS: Readonly<Record<string, Place>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};

/** A tap puts the cross; arrow keys move it, by 5 mm or with Shift by 1 mm. */
export function startMarks(within: ParentNode): void {
  for (const field of within.querySelectorAll<HTMLElement>('[data-mark]')) {
    const pad = field.querySelector<HTMLElement>('.mark-pad');
    pad?.addEventListener('pointerup', ({ clientX, clientY }) => {
      const place = placeAt(field, { x: clientX, y: clientY });
      if (place !== null) put(field, place);
    });
    pad?.addEventListener('keydown', (event) => {
      const way = WAYS[event.key];
      if (way === undefined) return;
      event.preventDefault();
      const from = places.get(field);
      const start = from ?? middle(field);
      if (start === null) return;
      const step = from === undefined ? 0 : event.shiftKey ? FINE_STEP : STEP;
      put(field, { x: start.x + way.x * step, y: start.y + way.y * step });
    });
  }
}

const nearestOnLine = (at: Place, from: Place, to: Place): number => {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const along = dx * dx + dy * dy;
  const share =
    along === 0
      ? 0
      : Math.min(1, Math.max(0, ((at.x - from.x) * dx + (at.y - from.y) * dy) / along));
  return Math.hypot(at.x - from.x - share * dx, at.y - from.y - share * dy);
};

/** Screen pixels from a point to a drawn outline; 0 inside it. */
function distanceTo(shape: SVGGeometryElement, screen: Place): number {
  const matrix = shape.getScreenCTM();
  if (matrix === null) return Number.POSITIVE_INFINITY;
  const inside = new DOMPoint(screen.x, screen.y).matrixTransform(matrix.inverse());
  const isLine = shape.getAttribute('fill') === 'none';
  if (!isLine && shape.isPointInFill(inside)) return 0;
  const length = shape.getTotalLength();
  const steps = Math.min(400, Math.max(2, Math.ceil(length / 2)));
  const points = Array.from({ length: steps + 1 }, (_, i) =>
    shape.getPointAtLength((length * i) / steps).matrixTransform(matrix),
  );
  return Math.min(...points.slice(1).map((to, i) => nearestOnLine(screen, points[i] as Place, to)));
}

/** The shapes that are the answer: the part itself, or the stretch its dimension measures. */
function wantedIn(field: HTMLElement): SVGGeometryElement[] {
  const { partWanted, dimensionWanted } = field.dataset;
  if (dimensionWanted !== undefined) {
    return [
      ...field.querySelectorAll<SVGGeometryElement>(
        `.dimension[data-measure="${dimensionWanted}"] [data-stretch]`,
      ),
    ];
  }
  const part = [...field.querySelectorAll<SVGElement>(`[data-part="${partWanted}"]`)];
  return part.flatMap((one) =>
    one instanceof SVGGeometryElement
      ? [one]
      : [...one.querySelectorAll<SVGGeometryElement>('path, circle, line')],
  );
}

/** How far the cross is from the answer, mm. */
export function judgeMark(field: HTMLElement, within: number): Judged {
  const place = places.get(field);
  const matrix = toScreen(field);
  if (place === undefined || matrix === null)
    return { verdict: 'unread', because: say('mark.none') };
  const screen = new DOMPoint(place.x, place.y).matrixTransform(matrix);
  const pixelsPerMm = Math.hypot(matrix.a, matrix.b);
  const off = Math.min(...wantedIn(field).map((shape) => distanceTo(shape, screen))) / pixelsPerMm;
  return { verdict: off <= within ? 'right' : 'wrong', off };
}

export const sayOff = (off: number): string => sayLength(off);

/** Shows the dimension or the balloon that is the answer. */
export const showAnswer = (field: HTMLElement): void => {
  field.dataset['answered'] = '';
};
