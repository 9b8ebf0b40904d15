import type { PlotRequest } from '../../drawing/index.ts';
import type { Calibration } from '../../grading/index.ts';
import type { Speaker } from '../../words/say.ts';

/** How the scores spread: share of people at or under each score, as steps. */
export function plotScores(
  scores: readonly number[],
  mark: number | null,
  say: Speaker,
): PlotRequest {
  const step = 100 / scores.length;
  const points = scores.flatMap((score, i) => [
    { x: score, y: i * step },
    { x: score, y: (i + 1) * step },
  ]);
  return {
    title: say('figures-about-tests.scores'),
    description: say('figures-about-tests.scores.alt', {
      count: scores.length,
      low: Math.round(scores[0] ?? 0),
      high: Math.round(scores.at(-1) ?? 0),
    }),
    x: { title: say('figures-about-tests.scores.x'), unit: '', reaches: [0, 100] },
    y: { title: say('figures-about-tests.scores.y'), unit: '%', reaches: [0, 100] },
    curves: [
      {
        label: say('figures-about-tests.scores.curve'),
        points: [{ x: 0, y: 0 }, ...points, { x: 100, y: 100 }],
      },
    ],
    lines:
      mark === null
        ? []
        : [{ axis: 'x', at: mark, label: say('figures-about-tests.scores.mark', { mark }) }],
  };
}

/** How sure people were against how often they were right. */
export function plotCalibration({ bins }: Calibration, say: Speaker): PlotRequest {
  const points = bins.flatMap(({ confidence, share }) =>
    confidence === null || share === null ? [] : [{ x: 100 * confidence, y: 100 * share }],
  );
  return {
    title: say('figures-about-tests.sure.title'),
    description: say('figures-about-tests.sure.alt'),
    x: { title: say('figures-about-tests.sure.x'), unit: '%', reaches: [0, 100] },
    y: { title: say('figures-about-tests.sure.y'), unit: '%', reaches: [0, 100] },
    curves: [
      { label: say('figures-about-tests.sure.said'), points },
      {
        label: say('figures-about-tests.sure.line'),
        points: [0, ...points.map(({ x }) => x), 100].map((at) => ({ x: at, y: at })),
      },
    ],
  };
}
