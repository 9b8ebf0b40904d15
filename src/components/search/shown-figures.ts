import { findFigure } from '../../bench/index.ts';
import { findLimit } from '../../limits/index.ts';
import { holdLength } from '../../panels/search/index.ts';
import { loadBenches, loadLimitSets } from '../../store/content-files.ts';
import { sayIn } from '../../words/say.ts';
import { endsAsked } from '../lesson/ends-asked.ts';
import { sayFactValue } from '../lesson/facts.ts';
import { sayFigure } from '../lesson/figures.ts';
import type { LessonContext } from '../lesson/lesson-context.ts';
import { limitPieces } from '../lesson/limit-pieces.ts';
import type { Piece } from '../pieces.ts';

/** What the parts of a lesson print, as text to be searched. Lengths are held in mm, to be shown in the reader's unit. */

export const holdPieces = (pieces: readonly Piece[]): string =>
  pieces.map((piece) => (typeof piece === 'string' ? piece : holdLength(piece.mm))).join('');

/** @param named another bench; empty for the lesson's own */
export function shownFigure(of: string, context: LessonContext, named = ''): string {
  const bench = (named === '' ? undefined : loadBenches().get(named)) ?? context.bench;
  const figure = findFigure(bench, of, bench === context.bench ? context.measures : undefined);
  return figure.unit === 'mm' ? holdLength(figure.value) : sayFigure(figure);
}

export function shownLimit(id: string, { bench, measures, language }: LessonContext): string {
  const limit = findLimit(loadLimitSets(), id);
  return limit === undefined
    ? ''
    : holdPieces(limitPieces(limit, endsAsked(limit, bench, measures), sayIn(language)));
}

export function shownFact(id: string, { facts, language }: LessonContext): string {
  const fact = facts.get(id);
  return fact === undefined ? '' : sayFactValue(fact, sayIn(language));
}
