import { LENGTH, lookUp, termsOf } from './search-term.ts';

/** A stretch of text, found or not. A length stands by itself. */
export type Piece =
  | { readonly kind: 'text' | 'hit'; readonly text: string }
  | { readonly kind: 'length'; readonly mm: number };

const WORDS_SHOWN = 30;
const WORDS_BEFORE = 6;

/** A text cut where a term of `terms` stands in it. */
export function markTerms(text: string, terms: ReadonlySet<string>, language: string): Piece[] {
  const pieces: Piece[] = [];
  let done = 0;
  for (const { text: word, from, to } of termsOf(text)) {
    const term = lookUp(word, language);
    if (term === null || !terms.has(term)) continue;
    pieces.push(...cutLengths(text.slice(done, from)), { kind: 'hit', text: text.slice(from, to) });
    done = to;
  }
  return [...pieces, ...cutLengths(text.slice(done))];
}

function cutLengths(text: string): Piece[] {
  const pieces: Piece[] = [];
  let done = 0;
  for (const match of text.matchAll(LENGTH)) {
    if (match.index > done) pieces.push({ kind: 'text', text: text.slice(done, match.index) });
    pieces.push({ kind: 'length', mm: Number(match[1]) });
    done = match.index + match[0].length;
  }
  if (done < text.length) pieces.push({ kind: 'text', text: text.slice(done) });
  return pieces;
}

/** The words round the place where most of the terms stand together. */
export function snippetOf(text: string, terms: ReadonlySet<string>, language: string): Piece[] {
  const words = termsOf(text);
  if (words.length <= WORDS_SHOWN) return markTerms(text, terms, language);
  const found = words.map(({ text: word }) => {
    const term = lookUp(word, language);
    return term !== null && terms.has(term) ? term : null;
  });
  let best = { start: 0, score: -1 };
  for (const [i, term] of found.entries()) {
    if (term === null) continue;
    const start = Math.max(0, i - WORDS_BEFORE);
    const score = new Set(found.slice(start, start + WORDS_SHOWN).filter((one) => one !== null))
      .size;
    if (score > best.score) best = { start, score };
  }
  const start = Math.min(best.start, words.length - WORDS_SHOWN);
  const end = start + WORDS_SHOWN;
  const from = start === 0 ? 0 : (words[start]?.from ?? 0);
  const to = end >= words.length ? text.length : (words[end]?.from ?? text.length);
  return [
    ...(from > 0 ? [{ kind: 'text' as const, text: '… ' }] : []),
    ...markTerms(text.slice(from, to).trim(), terms, language),
    ...(to < text.length ? [{ kind: 'text' as const, text: ' …' }] : []),
  ];
}
