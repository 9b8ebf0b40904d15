import type { StatusLine } from '../../competence/index.ts';
import type { Speaker } from '../../words/say.ts';

/** One line on where a person stands, in the language of the page, without its full stop. */
export function sayLine({ told }: Pick<StatusLine, 'told'>, say: Speaker): string {
  const { kind, trainer, seen, until, from, reason } = told;
  const days = { seen: say.day(seen), until: say.day(until), from: say.day(from) };
  return say(`people.line.${kind}`, { trainer, reason, ...days });
}
