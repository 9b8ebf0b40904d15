import type { PointerKind } from './pick.ts';

/** Something held by a pointer: where the pointer is now, and when it lets go. */
export type Grip = { move(point: { x: number; y: number }): void; end(): void };

export type Gestures = {
  orbit(dx: number, dy: number): void;
  pan(dx: number, dy: number): void;
  zoom(factor: number): void;
  /** What a drag that starts here takes hold of; null turns the view. */
  grab(point: { x: number; y: number; kind: PointerKind }): Grip | null;
  tap(point: { x: number; y: number; kind: PointerKind }): void;
  doubleTap(point: { x: number; y: number; kind: PointerKind }): void;
  hover(point: { x: number; y: number } | null): void;
};

/** Pixels a pointer may wander and still be a tap. */
const TAP_SLOP = 7;
const TAP_TIME = 450;
const DOUBLE_TIME = 380;

/**
 * Pointer, wheel and touch on the canvas, as what they mean. One finger or the main button turns, two
 * fingers or another button shift, pinch and wheel come closer.
 * @returns a function that lets go of the canvas
 */
export function listenForGestures(canvas: HTMLCanvasElement, gestures: Gestures): () => void {
  const down = new Map<number, { x: number; y: number; button: number }>();
  let start = { x: 0, y: 0, time: 0 };
  let moved = false;
  let grip: Grip | null = null;
  const letGo = (): void => {
    grip?.end();
    grip = null;
  };
  let lastTap = { x: 0, y: 0, time: Number.NEGATIVE_INFINITY };

  const local = (event: MouseEvent) => {
    const box = canvas.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const spread = () => {
    const [a, b] = [...down.values()];
    return a && b
      ? { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y) }
      : null;
  };

  const onDown = (event: PointerEvent): void => {
    canvas.setPointerCapture(event.pointerId);
    const point = local(event);
    down.set(event.pointerId, { ...point, button: event.button });
    if (down.size === 1) {
      start = { ...point, time: event.timeStamp };
      moved = false;
    } else {
      moved = true;
      letGo();
    }
    gestures.hover(null);
  };

  const onMove = (event: PointerEvent): void => {
    const held = down.get(event.pointerId);
    const point = local(event);
    if (held === undefined) {
      if (event.pointerType === 'mouse') gestures.hover(point);
      return;
    }
    const before = spread();
    const [dx, dy] = [point.x - held.x, point.y - held.y];
    down.set(event.pointerId, { ...point, button: held.button });
    if (!moved && Math.hypot(point.x - start.x, point.y - start.y) > TAP_SLOP) {
      moved = true;
      if (held.button === 0 && !event.shiftKey) {
        grip = gestures.grab({ ...start, kind: event.pointerType as PointerKind });
      }
    }
    if (!moved) return;
    if (grip !== null) {
      grip.move(point);
      return;
    }
    const after = spread();
    if (before && after) {
      gestures.pan(after.x - before.x, after.y - before.y);
      if (before.apart > 0) gestures.zoom(before.apart / Math.max(1, after.apart));
    } else if (held.button === 0 && !event.shiftKey) gestures.orbit(dx, dy);
    else gestures.pan(dx, dy);
  };

  const onUp = (event: PointerEvent): void => {
    const wasOne = down.size === 1;
    down.delete(event.pointerId);
    letGo();
    if (!wasOne || moved || event.timeStamp - start.time > TAP_TIME) return;
    const point = { ...local(event), kind: event.pointerType as PointerKind };
    const soon = event.timeStamp - lastTap.time < DOUBLE_TIME;
    if (soon && Math.hypot(point.x - lastTap.x, point.y - lastTap.y) < 24) {
      lastTap = { x: 0, y: 0, time: Number.NEGATIVE_INFINITY };
      gestures.doubleTap(point);
      return;
    }
    lastTap = { x: point.x, y: point.y, time: event.timeStamp };
    gestures.tap(point);
  };

  const onCancel = (event: PointerEvent): void => {
    down.delete(event.pointerId);
    letGo();
  };
  const onLeave = (): void => gestures.hover(null);
  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 18 : 1;
    gestures.zoom(Math.exp(Math.max(-120, Math.min(120, event.deltaY * lines)) * 0.0016));
  };
  const onMenu = (event: Event): void => event.preventDefault();

  const listeners: [string, EventListener][] = [
    ['pointerdown', onDown as EventListener],
    ['pointermove', onMove as EventListener],
    ['pointerup', onUp as EventListener],
    ['pointercancel', onCancel as EventListener],
    ['pointerleave', onLeave],
    ['contextmenu', onMenu],
  ];
  for (const [name, listener] of listeners) canvas.addEventListener(name, listener);
  canvas.addEventListener('wheel', onWheel, { passive: false });
  canvas.style.touchAction = 'none';
  return () => {
    for (const [name, listener] of listeners) canvas.removeEventListener(name, listener);
    canvas.removeEventListener('wheel', onWheel);
  };
}
