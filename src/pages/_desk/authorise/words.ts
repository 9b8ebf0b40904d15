import type { WordId } from '../../../words/catalogue/index.ts';
import type { Put } from '../../../words/index.ts';
import { type Speaker, sayIn } from '../../../words/say.ts';
import { type Refused, refused, sayRefused } from '../refused.ts';

/** A sentence of the sheet `authorisation`. */
export type AuthorisationWord = Extract<WordId, `authorisation.${string}`>;

/** A refusal whose sentence stands in the sheet `authorisation`. */
export type RefusedHere = Refused & { readonly here?: { key: AuthorisationWord; put: Put } };

/** A refusal of the sheet `authorisation`, to be said in the language of whoever asked. */
export const refusedHere = (
  status: number,
  path: string,
  key: AuthorisationWord,
  put: Put = {},
): RefusedHere => ({ ...refused(status, path, sayIn('en')(key, put)), here: { key, put } });

/** Why, in the language of the page. A day put in is said in that language too. */
export function sayHere(one: RefusedHere, say: Speaker): string {
  if (one.here === undefined) return sayRefused(one, say);
  const { key, put } = one.here;
  const said = Object.fromEntries(
    Object.entries(put).map(([name, value]) => {
      const text = String(value);
      if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return [name, say.day(text)];
      return [name, name === 'work' ? say.maybe(`names.work.${text}`, text) : value];
    }),
  );
  return say(key, said);
}
