import { type Bench, findFigure, type Measures } from '../../bench/index.ts';
import { sayFine } from '../../drawing/index.ts';
import { formatLength, type LengthUnit } from '../../geometry/index.ts';
import { findLimit, type LimitSet } from '../../limits/index.ts';
import type { Speaker } from '../../words/say.ts';
import { writePieces } from '../say-pieces.ts';
import { endsAsked } from './ends-asked.ts';
import { sayFactValue } from './facts.ts';
import { isFineLength, sayFigure, usualDigits } from './figures.ts';
import { splitText, type TextPart } from './fill-text.ts';
import type { Fact } from './lesson-schema.ts';
import { limitPieces } from './limit-pieces.ts';

/** What the places of a sentence are filled from. */
export type Filling = {
  readonly bench: Bench;
  readonly measures: Measures;
  readonly facts: ReadonlyMap<string, Fact>;
  readonly sets: ReadonlyMap<string, LimitSet>;
};

function sayPart(part: TextPart, filling: Filling, say: Speaker, unit: LengthUnit): string {
  const { bench, measures, facts, sets } = filling;
  if (part.kind === 'text') return part.text;
  if (part.kind === 'figure') {
    const figure = findFigure(bench, part.of, measures);
    const digits = usualDigits(figure);
    if (isFineLength(figure)) return say.figures(sayFine(figure.value, digits)[unit]);
    return say.figures(
      figure.unit === 'mm' ? formatLength(figure.value, unit, digits) : sayFigure(figure, digits),
    );
  }
  if (part.kind === 'fact') {
    const fact = facts.get(part.id);
    if (fact === undefined) throw new Error(`There is no fact named ${part.id} in content/facts.`);
    return sayFactValue(fact, say);
  }
  const limit = findLimit(sets, part.id);
  if (limit === undefined) throw new Error(`There is no limit named ${part.id}.`);
  return writePieces(limitPieces(limit, endsAsked(limit, bench, measures), say), unit, say);
}

/**
 * A sentence of a content file as plain text in one unit, for where no markup can stand.
 * @throws Error in one sentence when it names what is not there
 */
export const plainText = (text: string, filling: Filling, say: Speaker, unit: LengthUnit): string =>
  splitText(text)
    .map((part) => sayPart(part, filling, say, unit))
    .join('');
