import type { Point } from '../geometry/index.ts';

/**
 * SVG as text. Drawings carry classes and presentation attributes only: the content policy refuses
 * `style` attributes. A group of markup is simply a string.
 */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Sheet and model coordinates are kept to a ten-thousandth: finer than any paper, short in the file. */
export const figure = (value: number): string => {
  const rounded = Math.round(value * 1e4) / 1e4;
  return String(rounded === 0 ? 0 : rounded);
};

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};
export const escapeText = (text: string): string =>
  text.replace(/[&<>"]/g, (mark) => ENTITIES[mark] as string);

/** One element; attributes left `undefined` are not written. */
export function node(name: string, attributes: Attributes, ...children: string[]): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(
      ([key, value]) =>
        ` ${key}="${typeof value === 'number' ? figure(value) : escapeText(value)}"`,
    )
    .join('');
  const inner = children.join('');
  return inner === '' ? `<${name}${written}/>` : `<${name}${written}>${inner}</${name}>`;
}

const pair = ({ x, y }: Point): string => `${figure(x)} ${figure(y)}`;

/** Path data through the points; `Z` at the end when closed. */
export const openPath = (points: readonly Point[]): string => `M${points.map(pair).join('L')}`;
export const closedPath = (points: readonly Point[]): string => `${openPath(points)}Z`;

/** Line kinds after ISO 128-2: thick outline, thin line, hidden (dashed), centre (long dash, dot), phantom (double dot). `heavy` is ours: metal that is rounded or torn. */
export type Line =
  | 'outline'
  | 'thin'
  | 'hidden'
  | 'centre'
  | 'phantom'
  | 'grain'
  | 'break'
  | 'heavy';
/** What a surface is made of, for its tone. */
export type Material = 'steel' | 'iron' | 'timber' | 'guard' | 'paper' | 'ink' | 'none';

const LINES: Readonly<Record<Line, Attributes>> = {
  outline: { 'stroke-width': 2 },
  thin: { 'stroke-width': 1 },
  hidden: { 'stroke-width': 1, 'stroke-dasharray': '6 3' },
  centre: { 'stroke-width': 1, 'stroke-dasharray': '14 3 2 3' },
  phantom: { 'stroke-width': 1, 'stroke-dasharray': '14 3 2 3 2 3' },
  grain: { 'stroke-width': 1 },
  break: { 'stroke-width': 1 },
  heavy: { 'stroke-width': 4 },
};
/** Tones for a reader without the style sheet; the classes take over where it is loaded. */
const TONES: Readonly<Record<Material, string>> = {
  steel: '#d5dadc',
  iron: '#b9c0c3',
  timber: '#e2dac9',
  guard: '#dfe3ea',
  paper: '#ffffff',
  ink: 'currentColor',
  none: 'none',
};

/** A shape with a line kind and a material. Strokes keep their weight at any scale. */
export function shape(d: string, line: Line, material: Material = 'none', extra: Attributes = {}) {
  return node('path', {
    class: `l-${line} m-${material}`,
    d,
    fill: TONES[material],
    stroke: 'currentColor',
    'vector-effect': 'non-scaling-stroke',
    'stroke-linejoin': 'round',
    ...LINES[line],
    ...extra,
  });
}
