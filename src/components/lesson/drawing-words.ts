import { ENGLISH, type Wording } from '../../drawing/index.ts';
import type { Speaker } from '../../words/say.ts';

const KEYS = Object.keys(ENGLISH) as (keyof Wording)[];

/** The words a drawing prints, in the language of the page. */
export const drawingWords = (say: Speaker): Wording =>
  Object.fromEntries(
    KEYS.map((key) => [key, say.maybe(`drawing.${key}`, ENGLISH[key])]),
  ) as Wording;
