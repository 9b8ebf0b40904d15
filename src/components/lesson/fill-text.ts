/** A sentence of a content file, cut where a figure of the bench, a limit or a fact is to stand. */
export type TextPart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'figure'; readonly of: string }
  | { readonly kind: 'limit' | 'fact'; readonly id: string };

const PLACE = /\{([^{}]+)\}/g;

function readPlace(inside: string): TextPart {
  const [, kind, id] = /^(limit|fact):\s*(\S+)$/.exec(inside) ?? [];
  return kind === undefined
    ? { kind: 'figure', of: inside }
    : { kind: kind as 'limit' | 'fact', id: id as string };
}

/** `A {blade.kerf} cut` becomes the text before, the figure, the text after; `{limit:ID}` and `{fact:ID}` too. */
export function splitText(sentence: string): TextPart[] {
  const parts: TextPart[] = [];
  let done = 0;
  for (const match of sentence.matchAll(PLACE)) {
    if (match.index > done) parts.push({ kind: 'text', text: sentence.slice(done, match.index) });
    parts.push(readPlace((match[1] as string).trim()));
    done = match.index + match[0].length;
  }
  if (done < sentence.length) parts.push({ kind: 'text', text: sentence.slice(done) });
  return parts;
}
