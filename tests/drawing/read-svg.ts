/**
 * A small strict reader of XML (Extensible Markup Language 1.0, 5th edition: well-formedness of
 * elements, attributes and the five named entities), enough for the drawings and no more.
 */
export type Element = {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** text directly inside */
  readonly text: string;
};

type Open = { name: string; attributes: Record<string, string>; children: Element[]; text: string };

const NAME = '[A-Za-z_][\\w.:-]*';
const TOKEN = new RegExp(`<(/?)(${NAME})((?:\\s+${NAME}="[^"<]*")*)\\s*(/?)>|([^<]+)`, 'gy');
const ENTITY = /&(?:amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);/gi;

/** @throws on anything that is not well formed */
export function readXml(text: string): Element {
  const root: Open = { name: '', attributes: {}, children: [], text: '' };
  const stack: Open[] = [root];
  let at = 0;
  TOKEN.lastIndex = 0;
  for (let match = TOKEN.exec(text); match !== null; match = TOKEN.exec(text)) {
    at = TOKEN.lastIndex;
    const [, closing, name, attributes = '', selfClosing, words] = match;
    const top = stack[stack.length - 1] as Open;
    if (words !== undefined) {
      if (words.replace(ENTITY, '').includes('&')) throw new Error(`a bare & in "${words}"`);
      top.text += words;
    } else if (closing) {
      if (top.name !== name) throw new Error(`</${name}> closes <${top.name}>`);
      stack.pop();
    } else {
      const element: Open = {
        name: name ?? '',
        attributes: readAttributes(attributes),
        children: [],
        text: '',
      };
      top.children.push(element);
      if (!selfClosing) stack.push(element);
    }
  }
  if (at !== text.length) throw new Error(`cannot read "${text.slice(at, at + 60)}"`);
  if (stack.length !== 1) throw new Error(`<${stack[stack.length - 1]?.name}> is never closed`);
  if (root.children.length !== 1) throw new Error('must have one root');
  return root.children[0] as Element;
}

function readAttributes(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, key, value] of text.matchAll(new RegExp(`(${NAME})="([^"]*)"`, 'g'))) {
    if (key === undefined || value === undefined) continue;
    if (key in found) throw new Error(`${key} is given twice`);
    found[key] = value;
  }
  return found;
}

/** Every element under and including this one. */
export function everyElement(element: Element): Element[] {
  return [element, ...element.children.flatMap(everyElement)];
}

export const partsNamed = (svg: Element, part: string): Element[] =>
  everyElement(svg).filter((one) => one.attributes['data-part'] === part);

/** The points of straight path data, in order; curves are not read. */
export const pathPoints = (d: string): { x: number; y: number }[] =>
  [...d.matchAll(/[ML]\s*(-?[\d.]+)\s+(-?[\d.]+)/g)].map((m) => ({
    x: Number(m[1]),
    y: Number(m[2]),
  }));
