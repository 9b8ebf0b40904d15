import { placesOf, type Told } from '../../competence/index.ts';
import type { Speaker } from '../../words/say.ts';

/** A told line in the language of the page: one clause, without its full stop. */
export const sayTold = (told: Told, say: Speaker): string =>
  say(
    `standing.${told.kind}`,
    placesOf(told, {
      day: say.day,
      work: (work) => say.maybe(`names.work.${work}`, work),
      number: (value) => say.figures(String(value)),
    }),
  );
