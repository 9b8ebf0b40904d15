import type { Random } from '../random.ts';

const LETTERS = 'abcdefghijkl';

/** Things in an order that tells nothing, each under a letter that tells nothing either. */
export const lettered = <Item extends object>(
  items: readonly Item[],
  random: Random,
): (Item & { readonly id: string })[] =>
  random.sample(items, items.length).map((item, i) => ({ ...item, id: LETTERS[i] ?? String(i) }));
