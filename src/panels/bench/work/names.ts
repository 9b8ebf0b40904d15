import {
  INSTRUMENTS,
  type InstrumentId,
  isMeasureId,
  MEASURES,
  MEASURING_POINTS,
  type MeasuringPointId,
} from '../../../bench/index.ts';
import { englishOnly, nameIn, pageLanguage } from '../../../words/spoken.ts';

/**
 * What things of the bench are called in the language of the page. In English they are called as the engine
 * calls them; only the other language comes from a sheet.
 */
export const nameMeasure = (id: string, otherwise = id): string =>
  nameIn('names', `measure.${id}`, isMeasureId(id) ? MEASURES[id].title : otherwise);

export const namePlace = (at: MeasuringPointId): string =>
  nameIn('names', `at.${at}`, MEASURING_POINTS[at].title);

export const nameTool = (id: InstrumentId): string =>
  nameIn('names', `with.${id}`, INSTRUMENTS[id].title);

/** A name inside a sentence: in English it begins small, in German a noun stays large. */
export const nameInside = (name: string): string =>
  pageLanguage() === 'en' ? name.charAt(0).toLowerCase() + name.slice(1) : name;

type Told = { readonly id: string; readonly title: string; readonly brief: string };

/** Title and brief of a task; `lang` where nobody has put it into the language of the page. */
export function nameTask({ id, title, brief }: Told) {
  const own = nameIn('task-words', `${id}.title`, '');
  if (own === '') return { title, brief, lang: englishOnly() };
  return { title: own, brief: nameIn('task-words', `${id}.brief`, brief), lang: undefined };
}

/** The limit sets a task is held to; their titles stand in the order of their ids. */
export const nameSets = ({ limits, heldTo }: HeldTo): string[] =>
  limits.map((id, i) => nameIn('rule-sets', `title.${id}`, heldTo?.[i] ?? id));

type HeldTo = { readonly limits: readonly string[]; readonly heldTo?: readonly string[] };
