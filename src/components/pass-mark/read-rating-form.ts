/** Text fields of a posted form, as they were typed. */
type Form = Readonly<Record<string, string>>;

const PREFIX = 'rate-';
export const fieldOf = (line: string): string => `${PREFIX}${line}`;

const asNumber = (text: string | undefined): number | undefined =>
  text === undefined || text.trim() === '' || !Number.isFinite(Number(text))
    ? undefined
    : Number(text);

/** The request in a posted form of ratings; what is missing or no number is left for the schema to name. */
export const readRatingForm = (form: Form) => ({
  ...(form['id'] ? { id: form['id'] } : {}),
  version: asNumber(form['version']),
  ratings: Object.fromEntries(
    Object.entries(form)
      .filter(([name]) => name.startsWith(PREFIX))
      .map(([name, value]) => [name.slice(PREFIX.length), asNumber(value)]),
  ),
});

/** The request in a posted form that puts a mark in force. */
export const readAdoptionForm = (form: Form) => ({
  ...(form['id'] ? { id: form['id'] } : {}),
  version: asNumber(form['version']),
  mark: asNumber(form['mark']),
});
