import type { Speaker } from '../words/say.ts';

type Told = { readonly id: string; readonly title: string; readonly brief: string };

/**
 * Title and brief of a bench task in the language of the page, where somebody has translated them.
 * `lang` is the language they are in when it is another one.
 */
export function taskWords({ id, title, brief }: Told, say: Speaker) {
  const own = say.maybe(`task-words.${id}.title`, '');
  if (own === '') return { title, brief, lang: say.language === 'en' ? undefined : 'en' };
  return { title: own, brief: say.maybe(`task-words.${id}.brief`, brief), lang: undefined };
}
