import type { StatusLine } from '../../competence/index.ts';
import type { Speaker } from '../../words/say.ts';
import { sayTold } from './say-told.ts';

/** One line on where a person stands, in the language of the page, without its full stop. */
export const sayLine = ({ told }: Pick<StatusLine, 'told'>, say: Speaker): string =>
  sayTold(told, say);
