export {
  type Calibration,
  type CalibrationBin,
  CONFIDENCE_EDGES,
  type Judgement,
  measureCalibration,
} from './calibration.ts';
export {
  type BetaBinomial,
  type Consistency,
  decisionConsistency,
  fitBetaBinomial,
  livingstonIndex,
  totalChances,
} from './consistency.ts';
export { angoffCut, type CutScore, type ItemRating, mostDisputed } from './cut-score.ts';
export {
  type Detection,
  type DetectionCorrection,
  type DetectionCounts,
  measureDetection,
} from './detection.ts';
export { type Exposure, measureExposure, type Seen, type Sitting } from './exposure.ts';
export { FORGETTING_DECAY, intervalFor, retentionAfter } from './forgetting.ts';
export { type Interval, wilsonInterval } from './interval.ts';
export {
  analyseItems,
  completeRows,
  type ItemFigures,
  itemDiscrimination,
  type Mark,
  type Marks,
} from './marks.ts';
export { FIGURE_NAMES, type FigureName, mayShow, type Showing } from './may-show.ts';
export { correlate, meanOf, varianceOf } from './moments.ts';
export { normalCdf, normalDensity, normalQuantile } from './normal.ts';
export { gaussHermite, type Quadrature } from './quadrature.ts';
export { cohenKappa, type KappaWeights, type RaterKappa, tallyRatings } from './rater-kappa.ts';
export {
  alphaWithout,
  cronbachAlpha,
  errorOfMeasurement,
  kuderRichardson20,
  kuderRichardson21,
  type Scores,
  totalScores,
} from './reliability.ts';
export {
  countPatterns,
  fitTwoParameter,
  type MarkPattern,
  type TwoParameterFit,
  type TwoParameterItem,
} from './two-parameter.ts';
