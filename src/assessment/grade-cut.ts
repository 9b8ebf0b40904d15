import type { CriticalError } from './critical-errors.ts';
import type { CutMade } from './cuts-made.ts';

/** What a trial cut was asked to be, and whether it was. */
export type CutLine = {
  readonly what: 'made' | 'through' | 'not-thrown' | 'no-critical';
  readonly held: boolean;
};

export type CutGrade = {
  readonly lines: readonly CutLine[];
  /** what came of the last cut; null where none was made */
  readonly outcome: CutMade['cut']['outcome'] | null;
  /** 100 when every line holds, else 0: a cut that could have hurt somebody is worth nothing */
  readonly score: number;
};

/** A cut counts when it went through, nothing was thrown at any cut, and nothing critical was done. */
export function gradeCut(cuts: readonly CutMade[], critical: readonly CriticalError[]): CutGrade {
  const outcomes = cuts.map(({ cut }) => cut.outcome);
  const lines: CutLine[] = [
    { what: 'made', held: cuts.length > 0 },
    { what: 'through', held: outcomes.some((one) => one === 'smooth' || one === 'burning') },
    { what: 'not-thrown', held: outcomes.length > 0 && !outcomes.includes('thrown') },
    { what: 'no-critical', held: cuts.length > 0 && critical.length === 0 },
  ];
  return {
    lines,
    outcome: outcomes.at(-1) ?? null,
    score: lines.every(({ held }) => held) ? 100 : 0,
  };
}
