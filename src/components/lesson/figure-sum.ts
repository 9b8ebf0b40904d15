import { type LessonFigure, putTogether } from './figure-units.ts';

const TOKEN = /\s*(?:(\d+(?:\.\d+)?)|([a-zA-Z][\w.]*)|([-+*/()]))/y;

/** Cuts `(blade.kerf - knife.thickness) / 2` into numbers, names and signs. @throws on anything else */
function tokensOf(sum: string): string[] {
  const tokens: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < sum.trimEnd().length) {
    const at = TOKEN.lastIndex;
    const found = TOKEN.exec(sum);
    if (found === null) throw new Error(`The sum "${sum}" cannot be read from "${sum.slice(at)}".`);
    tokens.push((found[1] ?? found[2] ?? found[3]) as string);
  }
  return tokens;
}

/**
 * Works out a sum of figures: names, plain numbers, + - * / and brackets, as one writes it.
 * @param find the figure of a name. @throws when it is no sum, or its units do not go together
 */
export function workOut(sum: string, find: (id: string) => LessonFigure): LessonFigure {
  const tokens = tokensOf(sum);
  let at = 0;
  const refuse = () => new Error(`The sum "${sum}" is not complete.`);

  function one(): LessonFigure {
    const token = tokens[at++];
    if (token === undefined) throw refuse();
    if (token === '-') {
      const { value, unit } = one();
      return { value: -value, unit };
    }
    if (token === '(') {
      const inner = added();
      if (tokens[at++] !== ')') throw refuse();
      return inner;
    }
    if (/^\d/.test(token)) return { value: Number(token), unit: '1' };
    if (/^[a-zA-Z]/.test(token)) return find(token);
    throw refuse();
  }

  /** `2 * a / 3`, from left to right. */
  function multiplied(): LessonFigure {
    let sofar = one();
    for (let sign = tokens[at]; sign === '*' || sign === '/'; sign = tokens[at]) {
      at += 1;
      sofar = putTogether(sofar, sign, one());
    }
    return sofar;
  }

  function added(): LessonFigure {
    let sofar = multiplied();
    for (let sign = tokens[at]; sign === '+' || sign === '-'; sign = tokens[at]) {
      at += 1;
      sofar = putTogether(sofar, sign, multiplied());
    }
    return sofar;
  }

  const result = added();
  if (at < tokens.length) throw refuse();
  return result;
}
