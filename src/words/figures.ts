import { type Language, localeOf } from './languages.ts';

const decimals = new Map<Language, string>();

/** The mark between whole and part: a point in English, a comma in German (CLDR, through Intl). */
function decimalOf(language: Language): string {
  const known = decimals.get(language);
  if (known !== undefined) return known;
  const parts = new Intl.NumberFormat(language).formatToParts(1.5);
  const mark = parts.find(({ type }) => type === 'decimal')?.value ?? '.';
  decimals.set(language, mark);
  return mark;
}

/** Figures written with a point, `7.5 mm`, as the language writes them: `7,5 mm`. */
export function figuresIn(language: Language, text: string): string {
  const mark = decimalOf(language);
  return mark === '.' ? text : text.replace(/(\d)\.(?=\d)/g, `$1${mark}`);
}

/** The same inside drawn markup: the words between the tags, and nothing of the geometry. */
export function drawnIn(language: Language, markup: string): string {
  return decimalOf(language) === '.'
    ? markup
    : markup.replace(/>([^<]+)</g, (_whole, text: string) => `>${figuresIn(language, text)}<`);
}

/** A writer of dates for each language: making one takes a hundred times as long as using it. */
function writerOf(how: Intl.DateTimeFormatOptions): (language: Language) => Intl.DateTimeFormat {
  const made = new Map<Language, Intl.DateTimeFormat>();
  return (language) => {
    const writer =
      made.get(language) ??
      new Intl.DateTimeFormat(localeOf(language), { ...how, timeZone: 'UTC' });
    made.set(language, writer);
    return writer;
  };
}
const writeDay = writerOf({ day: 'numeric', month: 'long', year: 'numeric' });
const writeTime = writerOf({ hour: '2-digit', minute: '2-digit' });

/** A day or an instant in UTC, in words that cannot be misread: `3 March 2029`, `3. März 2029`. */
export function dayIn(language: Language, when: string): string {
  const at = new Date(when.length === 10 ? `${when}T00:00:00Z` : when);
  if (Number.isNaN(at.getTime())) return when;
  return writeDay(language).format(at);
}

/** Hour and minute in UTC: `14:05`. */
export const timeIn = (language: Language, when: string): string =>
  writeTime(language).format(new Date(when));

/** Hour and minute by the clock of the device in hand. */
export const clockIn = (language: Language, when: Date): string =>
  when.toLocaleTimeString(localeOf(language), {
    hour: '2-digit',
    minute: '2-digit',
  });
