import type { Sign } from './put-together.ts';

/** A sum as a tree: what is put together with what. */
export type Sum =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'name'; readonly name: string }
  | { readonly kind: 'minus'; readonly of: Sum }
  | { readonly kind: 'pair'; readonly sign: Sign; readonly one: Sum; readonly other: Sum };

const TOKEN = /\s*(?:(\d+(?:\.\d+)?)|([a-zA-Z]\w*(?:\.\w+)*)|([-+*/()]))/y;
/** A sum with more brackets within brackets than this is no sum of a lesson. */
const DEEPEST = 40;

/** @throws Error in words at the first thing that is no number, name, sign or bracket */
function tokensOf(text: string): string[] {
  const tokens: string[] = [];
  const end = text.trimEnd().length;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < end) {
    const at = TOKEN.lastIndex;
    const found = TOKEN.exec(text);
    if (found === null) throw new Error(`it cannot be read from "${text.slice(at).trim()}"`);
    tokens.push((found[1] ?? found[2] ?? found[3]) as string);
  }
  return tokens;
}

/**
 * Reads `(blade.kerf - knife.thickness) / 2`: names, plain numbers, + - * / and brackets, with * and /
 * before + and -, and from left to right.
 * @throws Error in words when it is no sum
 */
export function readSum(text: string): Sum {
  const tokens = tokensOf(text);
  let at = 0;
  let deep = 0;

  function readOne(): Sum {
    const token = tokens[at++];
    if (token === undefined) throw new Error('something is missing at its end');
    if (token === '-' || token === '(') {
      deep += 1;
      if (deep > DEEPEST) throw new Error(`it has more than ${DEEPEST} brackets and signs in one`);
      const inner = token === '-' ? readOne() : readAdded();
      deep -= 1;
      if (token === '-') return { kind: 'minus', of: inner };
      if (tokens[at++] !== ')') throw new Error('a bracket is not closed');
      return inner;
    }
    if (/^\d/.test(token)) return { kind: 'number', value: Number(token) };
    if (/^[a-zA-Z]/.test(token)) return { kind: 'name', name: token };
    throw new Error(`a figure is missing before "${token}"`);
  }

  function readRow(signs: readonly string[], readNext: () => Sum): Sum {
    let sofar = readNext();
    for (let sign = tokens[at]; sign !== undefined && signs.includes(sign); sign = tokens[at]) {
      at += 1;
      sofar = { kind: 'pair', sign: sign as Sign, one: sofar, other: readNext() };
    }
    return sofar;
  }

  const readMultiplied = (): Sum => readRow(['*', '/'], readOne);
  const readAdded = (): Sum => readRow(['+', '-'], readMultiplied);

  const sum = readAdded();
  if (at < tokens.length) throw new Error(`a sign is missing before "${tokens[at]}"`);
  return sum;
}
