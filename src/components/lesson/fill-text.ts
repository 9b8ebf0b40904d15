/** A sentence of a content file, cut where a figure of the bench is to stand. */
export type TextPart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'figure'; readonly of: string };

const FIGURE = /\{([a-zA-Z][\w.]*)\}/g;

/** `A {blade.kerf} cut` becomes the text before, the figure, the text after. */
export function splitText(sentence: string): TextPart[] {
  const parts: TextPart[] = [];
  let done = 0;
  for (const match of sentence.matchAll(FIGURE)) {
    if (match.index > done) parts.push({ kind: 'text', text: sentence.slice(done, match.index) });
    parts.push({ kind: 'figure', of: match[1] as string });
    done = match.index + match[0].length;
  }
  if (done < sentence.length) parts.push({ kind: 'text', text: sentence.slice(done) });
  return parts;
}
