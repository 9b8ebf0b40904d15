import type { Bench } from '../bench/index.ts';
import { drawEndView } from './end-view.ts';
import { drawKnifeView } from './knife-view.ts';
import { escapeText, figure, node } from './markup.ts';
import type { DimensionId } from './measures.ts';
import { drawPlanView } from './plan-view.ts';
import type { Clip } from './sheet.ts';
import { drawSideView } from './side-view.ts';
import { drawTeethView } from './teeth-view.ts';
import {
  type Crop,
  type DrawnCut,
  ENGLISH,
  type PartLabel,
  type View,
  type Wording,
} from './view.ts';

const VIEWS = {
  side: drawSideView,
  end: drawEndView,
  plan: drawPlanView,
  knife: drawKnifeView,
  teeth: drawTeethView,
} as const satisfies Record<View, unknown>;

export type DrawingRequest = {
  readonly view: View;
  /** read out by a screen reader: what it is, in a few words */
  readonly title: string;
  /** what a person who cannot see it needs to know */
  readonly description: string;
  readonly dimensions?: readonly DimensionId[] | undefined;
  /** parts named by numbered balloons, numbered in this order */
  readonly labels?: readonly PartLabel[] | undefined;
  /** side view: the whole blade, or only what stands above the table */
  readonly crop?: Crop | undefined;
  /** the stretch of the model shown, mm; each view has its own when not given */
  readonly clip?: Clip | undefined;
  /** the stock where a trial cut has brought it; side and plan view */
  readonly cut?: DrawnCut | undefined;
  readonly wording?: Wording | undefined;
};

/**
 * A bench as a line drawing, true to the millimetre: model markup inside keeps the bench's own
 * coordinates in mm. Returns one `<svg>`, without script, style or ids, so that any number can
 * stand on a page. Put it in an element of class `drawing` and load `drawing.css`.
 */
export function drawBench(bench: Bench, request: DrawingRequest): string {
  const view = { ...request, wording: request.wording ?? ENGLISH };
  const { sheet, body } = VIEWS[request.view](bench, view);
  return node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `bench-drawing bench-drawing--${request.view}`,
      viewBox: `0 0 ${figure(sheet.width)} ${figure(sheet.height)}`,
      role: 'img',
      'data-scale': String(sheet.scale),
      fill: 'none',
    },
    node('title', {}, escapeText(request.title)),
    node('desc', {}, escapeText(request.description)),
    body,
  );
}
