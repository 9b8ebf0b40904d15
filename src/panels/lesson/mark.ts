import type { Judged } from './judge-answer.ts';
import { offBy, onSheet, type Place, placeAt, shown } from './mark-sheet.ts';
import { sayLength } from './unit-shown.ts';
import { say } from './words.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** mm a step of the arrow keys may be: about a fiftieth of what is shown. */
const STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50];
const STEPS_ACROSS = 50;

/** mm of a step in this drawing, and decimals that tell one. */
function stepOf(field: Element): { step: number; digits: number } {
  const all = shown(field);
  const wanted = all === null ? 5 : (all.high.x - all.low.x) / STEPS_ACROSS;
  const step = STEPS.findLast((one) => one <= wanted) ?? 0.1;
  return { step, digits: step < 5 ? 1 : 0 };
}

/** Where the cross is in words, so that it can be moved without being seen. */
function sayPlace(field: HTMLElement, { x, y }: Place): string {
  const { view } = field.dataset;
  const { digits } = stepOf(field);
  const [across, up] = [sayLength(Math.abs(x), digits), sayLength(Math.abs(y), digits)];
  const aside = say(x < 0 ? 'mark.left' : 'mark.right');
  const over = say(y < 0 ? 'mark.below' : 'mark.above');
  const along = say(x < 0 ? 'mark.toward' : 'mark.away');
  if (view === 'end') return say('mark.at.end', { across, side: aside, up, way: over });
  const side = view === 'plan' ? say(y > 0 ? 'mark.left' : 'mark.right') : over;
  return say(view === 'plan' ? 'mark.at.plan' : 'mark.at.side', { across, way: along, up, side });
}

function drawCross(field: HTMLElement, place: Place): void {
  const sheet = field.querySelector('svg.bench-drawing');
  const at = onSheet(field, place);
  if (sheet === null || at === null) return;
  let cross = sheet.querySelector('.mark-cross');
  if (cross === null) {
    cross = document.createElementNS(SVG, 'path');
    cross.setAttribute('class', 'mark-cross');
    sheet.append(cross);
  }
  const { x, y } = at;
  cross.setAttribute(
    'd',
    `M${x - 22} ${y}H${x + 22}M${x} ${y - 22}V${y + 22}M${x - 9} ${y}a9 9 0 1 0 18 0a9 9 0 1 0 -18 0`,
  );
}

const places = new WeakMap<HTMLElement, Place>();

const clamp = (value: number, one: number, other: number) =>
  Math.min(Math.max(one, other), Math.max(Math.min(one, other), value));

/** Puts the cross on the drawing, never past its edge. */
function put(field: HTMLElement, wanted: Place): void {
  const all = shown(field);
  const place =
    all === null
      ? wanted
      : { x: clamp(wanted.x, all.low.x, all.high.x), y: clamp(wanted.y, all.low.y, all.high.y) };
  places.set(field, place);
  drawCross(field, place);
  const line = field.querySelector<HTMLElement>('[data-mark-at]');
  if (line) line.textContent = sayPlace(field, place);
  field.dispatchEvent(new CustomEvent('markchange', { bubbles: true }));
}

/** The first key puts the cross in the middle of what is drawn, on a whole step. */
function middle(field: HTMLElement): Place | null {
  const all = shown(field);
  const { step } = stepOf(field);
  const round = (one: number, other: number) => Math.round((one + other) / 2 / step) * step;
  return all && { x: round(all.low.x, all.high.x), y: round(all.low.y, all.high.y) };
}

const WAYS: Readonly<Record<string, Place>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};
/** Share of a step taken with Shift. */
const FINE = 0.2;

function pressKey(field: HTMLElement, event: KeyboardEvent): void {
  if (event.key === 'Enter') {
    event.preventDefault();
    field.closest('form')?.requestSubmit();
    return;
  }
  const way = WAYS[event.key];
  if (way === undefined) return;
  event.preventDefault();
  const from = places.get(field);
  const start = from ?? middle(field);
  if (start === null) return;
  const step = from === undefined ? 0 : stepOf(field).step * (event.shiftKey ? FINE : 1);
  put(field, { x: start.x + way.x * step, y: start.y + way.y * step });
}

/** A tap puts the cross; the arrow keys move it, finer with Shift; Enter gives the answer. */
export function startMarks(within: ParentNode): void {
  for (const field of within.querySelectorAll<HTMLElement>('[data-mark]')) {
    const pad = field.querySelector<HTMLElement>('.mark-pad');
    pad?.addEventListener('click', ({ clientX, clientY }) => {
      const place = placeAt(field, { x: clientX, y: clientY });
      if (place !== null) put(field, place);
    });
    pad?.addEventListener('keydown', (event) => pressKey(field, event));
    document.addEventListener('unitchange', () => {
      const place = places.get(field);
      if (place) put(field, place);
    });
  }
}

/** How far the cross is from the answer, mm. */
export function judgeMark(field: HTMLElement, within: number): Judged {
  const place = places.get(field);
  const off = place === undefined ? null : offBy(field, place);
  if (off === null) return { verdict: 'unread', because: say('mark.none') };
  return { verdict: off <= within ? 'right' : 'wrong', off };
}

export const sayOff = (off: number): string => sayLength(off, off < 5 ? 1 : 0);

/** Shows the dimension or the balloon that is the answer. */
export const showAnswer = (field: HTMLElement): void => {
  field.dataset['answered'] = '';
};
