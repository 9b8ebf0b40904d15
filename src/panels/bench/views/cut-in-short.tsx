import type { Done } from '../work/attempt.ts';
import { cutOf } from '../work/cut-run.ts';
import { sayInShort } from '../work/cut-words.ts';

/** One trial cut of the notebook, in a few words. */
export function CutInShort({ done }: { readonly done: Done }) {
  const cut = cutOf(done);
  return cut === null ? null : <strong>{sayInShort(cut)}</strong>;
}
