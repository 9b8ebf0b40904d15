import type { InstrumentId, MeasuringPointId } from '../bench/index.ts';
import type { MoveEffect } from './form/index.ts';

/** One place that was to be measured, and what was read there last. */
export type ReadingGrade = {
  readonly at: MeasuringPointId;
  /** null when nothing was laid and read there */
  readonly taken: {
    readonly with: InstrumentId;
    /** mm as the tool showed it, and as it was read; null: it takes nothing there */
    readonly shown: number | null;
    readonly read: number | null;
    /** mm, U of the tool: the reading counts when it lies within it */
    readonly uncertainty: number;
    readonly right: boolean;
  } | null;
};

export type ReadingsGrade = {
  readonly results: readonly ReadingGrade[];
  /** 0 to 100: the share read right */
  readonly score: number;
};

/** The last reading at each place counts; a place nobody read counts as wrong. */
export function gradeReadings(
  wanted: readonly MeasuringPointId[],
  effects: readonly { readonly effect: MoveEffect }[],
): ReadingsGrade {
  const results = wanted.map((at): ReadingGrade => {
    const last = effects.findLast(
      ({ effect }) => effect.kind === 'reading' && effect.at === at && effect.read !== undefined,
    )?.effect;
    if (last?.kind !== 'reading' || last.read === undefined) return { at, taken: null };
    const { value: shown, uncertainty, read } = last;
    return {
      at,
      taken: { with: last.with, shown, read: read.mm, uncertainty, right: read.right },
    };
  });
  const right = results.filter(({ taken }) => taken?.right === true).length;
  return { results, score: wanted.length === 0 ? 0 : (100 * right) / wanted.length };
}
