import type { Calibration, Detection } from '../../grading/index.ts';
import type { SlotKind } from '../blueprint/index.ts';

/** Why points were given or not, one line each: a page words them, nothing is left to be guessed. */
export type ScoreLine = {
  readonly task: string;
  readonly what:
    | 'found'
    | 'missed'
    | 'false-alarm'
    | 'wrong-fault'
    | 'blade'
    | 'knife'
    | 'insert'
    | 'setting'
    | 'job'
    | 'left'
    | 'choice'
    | 'step'
    | 'order'
    | 'slip'
    | 'figure'
    | 'reading';
  /** id of the fault, limit, choice or part the line is about */
  readonly about: string;
  /** may be below 0: a false alarm costs */
  readonly points: number;
  readonly of: number;
  /** it would have hurt somebody: with such a line nothing passes */
  readonly critical: boolean;
  /** figures and words for the sentence */
  readonly values: Readonly<Record<string, string | number | boolean | null>>;
};

export type TaskGrade = {
  readonly task: string;
  readonly kind: SlotKind;
  readonly weight: number;
  /** 0 to 100 */
  readonly score: number;
  readonly lines: readonly ScoreLine[];
};

/** What keeps a form from being passed. */
export type Bar =
  | { readonly kind: 'critical'; readonly line: ScoreLine }
  | { readonly kind: 'not-isolated'; readonly task: string; readonly times: number }
  /** naming faults no better than by luck */
  | { readonly kind: 'no-better-than-luck'; readonly task: string; readonly sensitivity: number }
  | {
      readonly kind: 'weak-part';
      readonly part: SlotKind;
      readonly score: number;
      readonly least: number;
    }
  | { readonly kind: 'below-mark'; readonly score: number; readonly mark: number };

export type FormGrade = {
  /** 0 to 100, the parts by their weights */
  readonly score: number;
  /** null where no pass mark has been set */
  readonly passed: boolean | null;
  /** empty for a pass */
  readonly bars: readonly Bar[];
  readonly tasks: readonly TaskGrade[];
  /** of the faults named; null where the form asks for none */
  readonly detection: Detection | null;
  /** of the confidence given; null where nothing was named */
  readonly calibration: Calibration | null;
};
