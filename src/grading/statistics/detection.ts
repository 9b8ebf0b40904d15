import { requireWhole } from './arguments.ts';
import { normalDensity, normalQuantile } from './normal.ts';

export type DetectionCounts = {
  /** faults named that were there, 0 to signals */
  readonly hits: number;
  /** faults that were there, 1 or more */
  readonly signals: number;
  /** faults named that were not there, 0 to noise */
  readonly falseAlarms: number;
  /** things in order that could have been named, 1 or more */
  readonly noise: number;
};

export type Detection = {
  readonly hitRate: number;
  readonly falseAlarmRate: number;
  /** d' = z(H) - z(F), in standard deviations; 0 when naming is no better than luck */
  readonly sensitivity: number;
  /** c = -(z(H) + z(F))/2: below 0 names freely, above 0 holds back */
  readonly criterion: number;
  /** beta = exp(d' c): likelihood ratio at which this person says "fault" */
  readonly beta: number;
  /** large-sample standard error of d' (Gourevitch and Galanter 1967, from memory) */
  readonly error: number;
};

/**
 * Keeps a perfect or an empty score finite; applied always, or people with one would be judged by
 * another rule than people without.
 * log-linear: half a hit and half a miss to each side (+.5 and +1; Hautus 1995).
 * proportional: the same two answers in all, shared out as signals and noise are. With 3 faults
 * among 40 things the log-linear rule gives one who names nothing a d' of 1.1; this rule gives
 * exactly 0 to naming nothing and to naming everything, whatever the shares. Equal where signals
 * and noise are equally many.
 * none: rates as they are.
 */
export type DetectionCorrection = 'log-linear' | 'proportional' | 'none';

/** Hits added, and false alarms added; twice as much is added to signals and noise. */
function amends(correction: DetectionCorrection, signals: number, noise: number) {
  if (correction === 'none') return { hit: 0, alarm: 0 };
  if (correction === 'log-linear') return { hit: 0.5, alarm: 0.5 };
  return { hit: signals / (signals + noise), alarm: noise / (signals + noise) };
}

/**
 * Signal detection, yes/no task, equal variances (Macmillan and Creelman, from memory). Null when
 * uncorrected and a rate is 0 or 1: d' is infinite.
 */
export function measureDetection(
  counts: DetectionCounts,
  correction: DetectionCorrection = 'log-linear',
): Detection | null {
  const { hits, signals, falseAlarms, noise } = counts;
  requireWhole('signals', signals, 1);
  requireWhole('noise', noise, 1);
  requireWhole('hits', hits, 0, signals);
  requireWhole('falseAlarms', falseAlarms, 0, noise);
  const { hit, alarm } = amends(correction, signals, noise);
  const hitRate = (hits + hit) / (signals + 2 * hit);
  const falseAlarmRate = (falseAlarms + alarm) / (noise + 2 * alarm);
  const zh = normalQuantile(hitRate);
  const zf = normalQuantile(falseAlarmRate);
  if (!Number.isFinite(zh) || !Number.isFinite(zf)) return null;
  const variance = (rate: number, z: number, trials: number) =>
    (rate * (1 - rate)) / (trials * normalDensity(z) ** 2);
  return {
    hitRate,
    falseAlarmRate,
    sensitivity: zh - zf,
    criterion: -(zh + zf) / 2,
    beta: Math.exp((zf ** 2 - zh ** 2) / 2),
    error: Math.sqrt(
      variance(hitRate, zh, signals + 2 * hit) + variance(falseAlarmRate, zf, noise + 2 * alarm),
    ),
  };
}
