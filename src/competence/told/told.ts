import english from '../../../content/messages/en/standing.json' with { type: 'json' };
import { type Day, type Instant, sayDay } from '../dates.ts';
import { nameWork } from '../work.ts';

/** A sentence of the sheet `standing`. */
export type ToldKind = keyof typeof english;

/** What stands in a place of a sentence: words and numbers as they are, days and kinds of work to be said. */
export type ToldPlace =
  | string
  | number
  | { readonly days: readonly (Day | Instant)[] }
  | { readonly works: readonly string[] };

/** Why something is as it is, as data that can be said in any language. Each is one clause without its full stop. */
export type Told = {
  readonly kind: ToldKind;
  readonly put: Readonly<Record<string, ToldPlace>>;
};

/** How a language says what stands in the places. */
export type ToldWords = {
  readonly day: (when: Day | Instant) => string;
  readonly work: (work: string) => string;
  readonly number: (value: number) => string;
};

const round = (value: number): number => Math.round(value * 10) / 10;

/** The places of a told line as text. */
export function placesOf({ put }: Told, words: ToldWords): Record<string, string> {
  const said = (place: ToldPlace): string => {
    if (typeof place === 'string') return place;
    if (typeof place === 'number') return words.number(round(place));
    return 'days' in place
      ? place.days.map(words.day).join(', ')
      : place.works.map(words.work).join(', ');
  };
  return Object.fromEntries(Object.entries(put).map(([name, place]) => [name, said(place)]));
}

export const onDay = (day: Day | Instant): ToldPlace => ({ days: [day] });
export const forWork = (...works: readonly string[]): ToldPlace => ({ works });
export const tell = (kind: ToldKind, put: Told['put'] = {}): Told => ({ kind, put });

const ENGLISH: ToldWords = { day: sayDay, work: nameWork, number: String };

/** The line in English: "signed off by R. Amsel after a practical on 3 March 2026, until 3 March 2029". */
export function sayToldInEnglish(told: Told): string {
  const places = placesOf(told, ENGLISH);
  return english[told.kind].replace(/\{(\w+)\}/g, (whole, name: string) => places[name] ?? whole);
}

/** A name as it stands on a sheet: `Ruth Amsel` becomes `R. Amsel`. One word stays whole. */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const last = words.at(-1) ?? '';
  const first = words[0] ?? '';
  return words.length < 2 ? last : `${[...first][0]}. ${last}`;
}

/** A reason as somebody typed it, without the full stop that would end the sentence early. */
export const clause = (reason: string): string => reason.trim().replace(/\.$/, '');
