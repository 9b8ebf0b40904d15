import { requireNumber } from './arguments.ts';
import { type Interval, wilsonInterval } from './interval.ts';
import { meanOf, sumOf } from './moments.ts';

/** A finding with the confidence given to it before it was marked. */
export type Judgement = {
  /** 0 (surely wrong) to 1 (surely right) */
  readonly confidence: number;
  readonly right: boolean;
};

export type CalibrationBin = {
  /** confidence from low to under high; the last bin takes its high end too */
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly right: number;
  /** mean confidence of the bin; null when empty */
  readonly confidence: number | null;
  /** share right; null when empty */
  readonly share: number | null;
  /** 95 % Wilson interval of the share */
  readonly interval: Interval;
};

export type Calibration = {
  readonly count: number;
  /** mean squared gap between confidence and result, 0 best, 1 worst (Brier 1950) */
  readonly brier: number;
  /** mean confidence less share right: above 0 too sure, below 0 too modest; -1 to 1 */
  readonly overconfidence: number;
  /** mean squared gap of the bins between confidence and share right; 0 is calibrated */
  readonly miscalibration: number;
  /** spread of the bins' shares about the whole: high when confidence tells right from wrong */
  readonly resolution: number;
  /** p (1 - p) of the whole: the Brier score of one who always states the overall share */
  readonly uncertainty: number;
  readonly bins: readonly CalibrationBin[];
};

/** Five even steps. */
export const CONFIDENCE_EDGES: readonly number[] = [0, 0.2, 0.4, 0.6, 0.8, 1];

function checkEdges(edges: readonly number[]): void {
  const rising = edges.every((edge, i) => i === 0 || edge > (edges[i - 1] as number));
  if (edges.length < 2 || edges[0] !== 0 || edges.at(-1) !== 1 || !rising) {
    throw new RangeError(`edges must rise from 0 to 1, not ${edges.join(', ')}.`);
  }
}

function fillBin(low: number, high: number, inside: readonly Judgement[]): CalibrationBin {
  const right = inside.filter((judgement) => judgement.right).length;
  const count = inside.length;
  return {
    low,
    high,
    count,
    right,
    confidence: count === 0 ? null : meanOf(inside.map(({ confidence }) => confidence)),
    share: count === 0 ? null : right / count,
    interval: wilsonInterval(right, count),
  };
}

/**
 * Compares confidence with results. brier = miscalibration - resolution + uncertainty (Murphy
 * 1973, from memory) exactly when each bin holds one level of confidence, as with fixed answers
 * "guess, fairly sure, certain"; else the bins blur a little. Null when there is no judgement.
 */
export function measureCalibration(
  judgements: readonly Judgement[],
  edges: readonly number[] = CONFIDENCE_EDGES,
): Calibration | null {
  checkEdges(edges);
  for (const { confidence } of judgements) requireNumber('confidence', confidence, 0, 1);
  const count = judgements.length;
  if (count === 0) return null;

  const last = edges.length - 2;
  const bins = edges.slice(0, -1).map((low, i) => {
    const high = edges[i + 1] as number;
    const inside = judgements.filter(
      ({ confidence: c }) => c >= low && (c < high || (i === last && c === high)),
    );
    return fillBin(low, high, inside);
  });
  const share = judgements.filter(({ right }) => right).length / count;
  const overBins = (gap: (bin: { share: number; confidence: number }) => number) =>
    sumOf(
      bins.map((bin) =>
        bin.share === null || bin.confidence === null
          ? 0
          : bin.count * gap({ share: bin.share, confidence: bin.confidence }) ** 2,
      ),
    ) / count;
  return {
    count,
    brier: meanOf(judgements.map((j) => (j.confidence - (j.right ? 1 : 0)) ** 2)),
    overconfidence: meanOf(judgements.map(({ confidence }) => confidence)) - share,
    miscalibration: overBins((bin) => bin.confidence - bin.share),
    resolution: overBins((bin) => bin.share - share),
    uncertainty: share * (1 - share),
    bins,
  };
}
