import {
  type Bench,
  type Figure,
  type FigureStep,
  findFigure,
  howFigure,
  isTrial,
  setFields,
} from '../bench/index.ts';
import type { Move } from './form/index.ts';
import type { Prediction } from './prediction-schema.ts';
import type { SaidBeforehand } from './say-beforehand.ts';

/** One number asked for beforehand: what was said, what is true and how that comes about. */
export type PredictionGrade = {
  readonly id: string;
  readonly ask: string;
  /** null where nothing was written down */
  readonly said: number | null;
  /** written down when something had been tried already: it does not count */
  readonly late: boolean;
  readonly true: Figure;
  /** in the unit of the figure */
  readonly within: number;
  readonly right: boolean;
  readonly steps: readonly FigureStep[];
};

export type PredictionsGrade = {
  readonly results: readonly PredictionGrade[];
  /** 0 to 100: the share said right */
  readonly score: number;
};

/** What a number is asked of: the bench as given, with the fields of the question set. @throws Error */
export const benchAsked = (start: Bench, { change }: Prediction): Bench =>
  change === undefined ? start : setFields(start, change);

/** The figure asked for. @throws Error in one sentence where this bench has none */
export const figureAsked = (start: Bench, asked: Prediction): Figure =>
  findFigure(benchAsked(start, asked), asked.of);

/**
 * The last number written down for each counts, when nothing had been tried by then.
 * @throws Error in one sentence where a task asks for what its bench has not
 */
export function gradePredictions(
  start: Bench,
  wanted: readonly Prediction[],
  said: readonly SaidBeforehand[],
  moves: readonly Move[],
): PredictionsGrade {
  const firstTrial = moves.findIndex(isTrial);
  const results = wanted.map((asked): PredictionGrade => {
    const bench = benchAsked(start, asked);
    const figure = findFigure(bench, asked.of);
    const answer = said.findLast(({ id }) => id === asked.id);
    const late = answer !== undefined && firstTrial >= 0 && answer.after > firstTrial;
    const off =
      answer === undefined ? Number.POSITIVE_INFINITY : Math.abs(answer.value - figure.value);
    return {
      id: asked.id,
      ask: asked.ask,
      said: answer?.value ?? null,
      late,
      true: figure,
      within: asked.within,
      right: !late && off <= asked.within + SLACK * Math.abs(figure.value),
      steps: howFigure(bench, asked.of),
    };
  });
  const right = results.filter((one) => one.right).length;
  return { results, score: wanted.length === 0 ? 0 : (100 * right) / wanted.length };
}

/** Share of a figure lost between a fraction of an inch and its millimetres. */
const SLACK = 1e-9;
