import type { Point } from '../geometry/index.ts';
import { figure, node } from './markup.ts';

/** Width of every drawing, in sheet units; about one unit to a pixel on a laptop page. */
export const SHEET_WIDTH = 680;
/** Height of text as laid out: large enough for a phone. The style sheet sets it smaller where there is room. */
export const TEXT = 24;

/** The stretch of the model a drawing shows, mm; `top` above `bottom`. */
export type Clip = {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
};

/**
 * mm to show past `from`, so that `room` sheet units are left there when `shown` mm fill the rest of
 * the width.
 */
export const roomInMm = (shown: number, room: number): number =>
  (shown * room) / (SHEET_WIDTH - room);

/** Room round the model for dimensions and words, sheet units. */
export type Margins = Clip;

export type Sheet = {
  readonly clip: Clip;
  readonly width: number;
  readonly height: number;
  /** sheet units per mm */
  readonly scale: number;
  /** from the model (mm, y up) to the sheet (units, y down) */
  readonly at: (point: Point) => Point;
  /** model markup, in mm with y up, cut off at the clip */
  readonly model: (...markup: string[]) => string;
  /** mm that so many sheet units stand for */
  readonly mm: (units: number) => number;
};

export function makeSheet(clip: Clip, margins: Margins): Sheet {
  const modelWidth = SHEET_WIDTH - margins.left - margins.right;
  const scale = modelWidth / (clip.right - clip.left);
  const modelHeight = (clip.top - clip.bottom) * scale;
  const at = ({ x, y }: Point): Point => ({
    x: margins.left + (x - clip.left) * scale,
    y: margins.top + (clip.top - y) * scale,
  });
  return {
    clip,
    width: SHEET_WIDTH,
    height: margins.top + modelHeight + margins.bottom,
    scale,
    at,
    mm: (units) => units / scale,
    model: (...markup) =>
      node(
        'svg',
        {
          class: 'model',
          x: margins.left,
          y: margins.top,
          width: modelWidth,
          height: modelHeight,
          viewBox: [clip.left, -clip.top, clip.right - clip.left, clip.top - clip.bottom]
            .map(figure)
            .join(' '),
          overflow: 'hidden',
        },
        node('g', { transform: 'scale(1 -1)' }, ...markup),
      ),
  };
}
