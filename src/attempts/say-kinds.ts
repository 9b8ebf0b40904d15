import words from '../../content/messages/en/how-figures.json' with { type: 'json' };
import type { ChoiceGrade, PredictionGrade } from '../assessment/index.ts';
import { type Figure, isMeasureId, isWorking, MEASURES, WORKINGS } from '../bench/index.ts';

export type SaidChoice = ChoiceGrade;

/** A figure by its name, as a page shows it. */
export type SaidFigure = { readonly title: string; readonly figure: Figure };

/** One number asked for beforehand, with what it is and how that comes about. */
export type SaidPrediction = Omit<PredictionGrade, 'steps'> & {
  readonly steps: readonly (SaidFigure & {
    /** one sentence; null where the figure is simply read off the bench */
    readonly says: string | null;
    readonly from: readonly SaidFigure[];
  })[];
};

const SHEET: Readonly<Record<string, string>> = words;

/** What a figure of a bench is called. */
export function titleOfFigure(name: string): string {
  if (isWorking(name)) return WORKINGS[name].title;
  if (isMeasureId(name)) return MEASURES[name].title;
  return SHEET[`name.${name}`] ?? name;
}

export const sayPrediction = ({ steps, ...rest }: PredictionGrade): SaidPrediction => ({
  ...rest,
  steps: steps.map(({ name, figure, from }) => ({
    title: titleOfFigure(name),
    figure,
    says: SHEET[`how.${name}`] ?? null,
    from: from.map((one) => ({ title: titleOfFigure(one.name), figure: one.figure })),
  })),
});
