import { type FigureUnit, isMeasureId, isPlainUnit, MEASURES } from '../../../bench/index.ts';
import type { Speaker } from '../../../words/say.ts';

/** What a measure, a working or a field is called, in a word or two. */
export function nameOne(id: string, say: Speaker): string {
  if (isMeasureId(id)) return say.maybe(`names.measure.${id}`, MEASURES[id].title);
  return say.maybe(`figures.${id}`, id);
}

/** What a figure is called; a sum is told by its parts and their signs. */
export const nameFigure = (of: string, say: Speaker): string =>
  of
    .trim()
    .replace(/[a-zA-Z]\w*(?:\.\w+)*/g, (id) => nameOne(id, say))
    .replace(/\s*\*\s*/g, ' × ')
    .replace(/\s+-\s+/g, ' − ');

/** A unit as it stands behind the title of an axis; a plain number has none. */
export function axisUnit(unit: FigureUnit, say: Speaker): string {
  if (isPlainUnit(unit)) return '';
  return unit === 'mm' ? unit : say.maybe(`figures.unit.${unit}`, unit);
}

/** What figures of one unit have in common: `Length`, `Speed`. */
export const axisTitle = (unit: FigureUnit, say: Speaker): string =>
  say.maybe(`figures.axis.${unit}`, say('figures.axis.other'));
