/** Deepest a request may nest: a bench file nests 6 deep, a signed record 9. */
export const DEEPEST_JSON = 40;

/** A string, or one of the signs that open and close. Only used on text that is JSON already. */
const TOKENS = /"[^"\\]*(?:\\.[^"\\]*)*"|[{}[\],:]/g;

/** Keys that are no data: they reach into the objects of the language itself. */
const REACHING = new Set(['__proto__']);

type Open = { readonly keys: Set<string> | null; awaitsKey: boolean };

function checkTokens(text: string): void {
  const open: Open[] = [];
  for (const [token] of text.matchAll(TOKENS)) {
    const within = open.at(-1);
    if (token === '{') open.push({ keys: new Set(), awaitsKey: true });
    else if (token === '[') open.push({ keys: null, awaitsKey: false });
    else if (token === '}' || token === ']') open.pop();
    else if (token === ',') {
      if (within?.keys) within.awaitsKey = true;
    } else if (token !== ':' && within?.keys && within.awaitsKey) {
      const key: string = JSON.parse(token);
      if (within.keys.has(key) || REACHING.has(key)) throw new SyntaxError('a key stands twice');
      within.keys.add(key);
      within.awaitsKey = false;
    }
    if (open.length > DEEPEST_JSON) throw new SyntaxError('it nests too deep');
  }
}

/**
 * JSON as every reader reads it alike (RFC 8259, I-JSON of RFC 7493): UTF-8, no key twice in one object, none that
 * reaches into the language, at most 40 deep.
 * @throws SyntaxError or TypeError for anything else
 */
export function parseStrictJson(bytes: Uint8Array): unknown {
  const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  const value: unknown = JSON.parse(text);
  checkTokens(text);
  return value;
}
