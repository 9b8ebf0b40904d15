/** What stands in a place of a sentence: `{count}`. */
export type Put = Readonly<Record<string, string | number>>;

/** A sentence with its places filled; a place nobody has a word for stays as it is written. */
export const fillPlaces = (sentence: string, put: Put = {}): string =>
  sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(put[name] ?? whole));

/** A sentence of the catalogue cut into text, places, links and stressed words. */
export type SaidPart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'place'; readonly name: string }
  | { readonly kind: 'strong'; readonly text: string }
  | { readonly kind: 'link'; readonly text: string; readonly href: string };

const MARK = /\{(\w+)\}|\*\*([^*]+)\*\*|\[([^\]]+)\]\(([^)\s]+)\)/g;

/**
 * Cuts a sentence of the catalogue: `Read the [glossary](/glossary), **then** {next}.` Links and stress
 * hold plain text only, so that a translator can move them but not break them.
 */
export function cutSentence(sentence: string): SaidPart[] {
  const parts: SaidPart[] = [];
  let done = 0;
  for (const match of sentence.matchAll(MARK)) {
    if (match.index > done) parts.push({ kind: 'text', text: sentence.slice(done, match.index) });
    const [whole, name, strong, text, href] = match;
    if (name !== undefined) parts.push({ kind: 'place', name });
    else if (strong !== undefined) parts.push({ kind: 'strong', text: strong });
    else parts.push({ kind: 'link', text: text as string, href: href as string });
    done = match.index + whole.length;
  }
  if (done < sentence.length) parts.push({ kind: 'text', text: sentence.slice(done) });
  return parts;
}

/**
 * The same with plain words put into its stressed words and links. They go in after the cut, so that a
 * name with brackets or stars in it, which anybody may have typed, stays text and never becomes a link.
 */
export const cutAndFill = (sentence: string, put: Put): SaidPart[] =>
  cutSentence(sentence).map((part) =>
    part.kind === 'strong' || part.kind === 'link'
      ? { ...part, text: fillPlaces(part.text, put) }
      : part,
  );
