import type { PlotRequest } from '../../drawing/index.ts';
import type { Calibration } from '../../grading/index.ts';

/** How the scores spread: share of people at or under each score, as steps. */
export function plotScores(scores: readonly number[], mark: number | null): PlotRequest {
  const step = 100 / scores.length;
  const points = scores.flatMap((score, i) => [
    { x: score, y: i * step },
    { x: score, y: (i + 1) * step },
  ]);
  return {
    title: 'How the scores spread',
    description: `${scores.length} scores, the lowest ${Math.round(scores[0] ?? 0)} and the highest ${Math.round(scores.at(-1) ?? 0)} of 100. Each step is one of them.`,
    x: { title: 'Score of 100', unit: '', reaches: [0, 100] },
    y: { title: 'At or under it', unit: '%', reaches: [0, 100] },
    curves: [{ label: 'Scores', points: [{ x: 0, y: 0 }, ...points, { x: 100, y: 100 }] }],
    lines: mark === null ? [] : [{ axis: 'x', at: mark, label: `Pass mark ${mark}` }],
  };
}

/** How sure people were against how often they were right. */
export function plotCalibration({ bins }: Calibration): PlotRequest {
  const points = bins.flatMap(({ confidence, share }) =>
    confidence === null || share === null ? [] : [{ x: 100 * confidence, y: 100 * share }],
  );
  return {
    title: 'How sure against how often right',
    description:
      'Each point is one word for how sure somebody was. Under the straight line people were more sure than they were right.',
    x: { title: 'Sure', unit: '%', reaches: [0, 100] },
    y: { title: 'Right', unit: '%', reaches: [0, 100] },
    curves: [
      { label: 'What people said', points },
      {
        label: 'As sure as right',
        points: [0, ...points.map(({ x }) => x), 100].map((at) => ({ x: at, y: at })),
      },
    ],
  };
}
