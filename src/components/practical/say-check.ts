import english from '../../../content/messages/en/checks.json' with { type: 'json' };
import { sayAgain } from '../../words/index.ts';
import type { Speaker } from '../../words/say.ts';

/** A sentence of the checks of a record, in the language of the page. */
export const sayCheck = (sentence: string, say: Speaker): string =>
  sayAgain(english, sentence, {
    language: say.language,
    say: (key, put) => say(`checks.${key}`, put),
  });
