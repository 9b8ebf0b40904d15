const PART = /^(\^|>=) ?(\d+)(?:\.(\d+)\.(\d+))?$/;

/**
 * Whether a range as packages write it under `engines` takes `node`, such as `24.21.0`. Of the ranges of semver it knows
 * `^a.b.c`, `>=a.b.c` and `||`, and throws on another.
 */
export function takesNode(range: string, node: string): boolean {
  const numbers = (parts: readonly (string | undefined)[]) =>
    parts.map((part) => Number(part ?? 0));
  const at = numbers(node.split('.'));
  return range.split('||').some((text) => {
    const [, sign, ...from] = PART.exec(text.trim()) ?? [];
    if (!sign) throw new RangeError(`not a range this can read: ${range}`);
    const least = numbers(from);
    const where = at.findIndex((number, place) => number !== least[place]);
    const reached = where < 0 || (at[where] ?? 0) > (least[where] ?? 0);
    return reached && (sign === '>=' || at[0] === least[0]);
  });
}
