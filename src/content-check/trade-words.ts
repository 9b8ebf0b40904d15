import type { WordFinder } from '../components/lesson/find-words.ts';

/** Plain English a lesson may use without explaining it. */
export type PlainEnglish = {
  /** frequent words, as spelled in a list of them */
  readonly common: ReadonlySet<string>;
  /** plain words the list lacks: content/everyday */
  readonly added: ReadonlySet<string>;
  /** words of the list that mean something of their own at a bench */
  readonly trade: ReadonlySet<string>;
};

/** What a word may be the plural, the past, the -ing, the comparison or the adverb of. */
export function rootsOf(word: string): readonly string[] {
  const roots = new Set([word]);
  const bare = word.replace(/['’](s|d|ll|re|ve)?$/, '').replace(/n['’]t$/, '');
  roots.add(bare);
  const cut = (end: RegExp, ...instead: string[]) => {
    if (!end.test(bare)) return;
    for (const tail of instead) roots.add(bare.replace(end, tail));
    const stem = bare.replace(end, '');
    if (/([^aeiou])\1$/.test(stem)) roots.add(stem.slice(0, -1));
  };
  cut(/s$/, '');
  cut(/es$/, '', 'e');
  cut(/ies$/, 'y');
  cut(/ves$/, 'f', 'fe');
  cut(/ed$/, '', 'e');
  cut(/ied$/, 'y');
  cut(/ing$/, '', 'e');
  cut(/ings$/, '', 'e');
  cut(/er$/, '', 'e');
  cut(/ers$/, '', 'e');
  cut(/ier$/, 'y');
  cut(/est$/, '', 'e');
  cut(/ly$/, '', 'e');
  cut(/ily$/, 'y');
  cut(/ness$/, '');
  cut(/less$/, '');
  return [...roots].filter((root) => root.length > 0);
}

const isPlain = (word: string, { common, added, trade }: PlainEnglish): boolean => {
  const roots = rootsOf(word);
  if (roots.some((root) => added.has(root))) return true;
  if (roots.some((root) => trade.has(root))) return false;
  const bare = roots.flatMap((root) => [root, root.replace(/^(un|re|non)(?=\w{3})/, '')]);
  return bare.some((root) => root.length > 1 && common.has(root));
};

export type LooseWord = { readonly word: string; readonly at: number };

/**
 * Words that are neither plain English nor in the glossary. Names (a capital inside a sentence) and
 * abbreviations in capitals are passed over.
 */
export function findLooseWords(
  text: string,
  english: PlainEnglish,
  findTerms: WordFinder,
): readonly LooseWord[] {
  // what the glossary explains is blanked out, so that its single words are not asked again
  let rest = text.replace(/\{[^{}]*\}/g, (inner) => ' '.repeat(inner.length));
  for (const { from, to } of findTerms(rest)) {
    rest = rest.slice(0, from) + ' '.repeat(to - from) + rest.slice(to);
  }
  return [...rest.matchAll(/[A-Za-z]+(?:['’][A-Za-z]+)*/g)].flatMap((match) => {
    const [word] = match;
    const before = rest.slice(0, match.index).trimEnd();
    const opens = before === '' || /[.!?:;"“(]$/.test(before);
    const glued =
      /[\dA-Za-z/._@]$/.test(rest.slice(0, match.index)) ||
      /^[\d@/]/.test(rest.slice(match.index + word.length));
    const named = /^[A-Z]/.test(word) && !opens;
    if (word.length < 2 || glued || named || /[A-Z]{2}/.test(word)) return [];
    const plain = word.toLowerCase();
    return isPlain(plain, english) ? [] : [{ word: plain, at: match.index }];
  });
}
