import { signal } from '@preact/signals';
import panel from '../../../../content/messages/en/bench-panel.json';
import type { ByEye } from '../../../bench/index.ts';
import { formatInchFraction, formatLength, type LengthUnit } from '../../../geometry/index.ts';
import { figuresIn } from '../../../words/index.ts';
import { pageLanguage, sentenceOf } from '../../../words/spoken.ts';

/** A measured length, mm, and how many decimals of a millimetre it is known to. */
export type Length = { readonly mm: number; readonly digits?: number };
export type Word = Length | ByEye | number | string;

export type PanelKey = keyof typeof panel;

/** The unit lengths are shown in; every view that says a length follows it. */
export const shownUnit = signal<LengthUnit>('mm');

export const sayLength = ({ mm, digits = 1 }: Length): string =>
  figuresIn(pageLanguage(), formatLength(mm, shownUnit.value, digits));

/** The finest division of an inch an eye claims, for each step in mm it judges to. */
const inchFor = (to: number): number => (to >= 25 ? 1 : to >= 5 ? 8 : to >= 2 ? 16 : 32);

/** A sentence of this panel with its places open. */
const written = (key: PanelKey): string => sentenceOf('bench-panel', panel, key);

export function sayByEye({ about, to }: ByEye): string {
  const length = (mm: number, finest: number) =>
    shownUnit.value === 'inch' ? `${formatInchFraction(mm, finest)} in` : sayLength({ mm });
  return about === 0
    ? written('eye.less').replace('{length}', length(to / 2, inchFor(to) * 2))
    : written('eye.about').replace('{length}', length(about, inchFor(to)));
}

function sayWord(word: Word): string {
  if (typeof word === 'string') return word;
  if (typeof word === 'number') return String(word);
  return 'about' in word ? sayByEye(word) : sayLength(word);
}

/** A sentence with its words put in; a place nobody has a word for stays as it is written. */
export function fill(sentence: string, words: Readonly<Record<string, Word>>): string {
  return sentence.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const word = words[name];
    return word === undefined ? whole : sayWord(word);
  });
}

/** A sentence of this panel. */
export const say = (key: PanelKey, words: Readonly<Record<string, Word>> = {}): string =>
  fill(written(key), words);

/** How many, in words: none, one and many each have their own. */
export function sayCount(what: 'things' | 'faults', count: number): string {
  const form = count === 0 ? 'none' : count === 1 ? 'one' : 'many';
  return say(`count.${what}.${form}`, { count });
}

/** A sentence whose key is made up of parts, with a plain word for a part nobody has named yet. */
export const sayIf = (key: string, otherwise: string): string =>
  Object.hasOwn(panel, key) ? written(key as PanelKey) : otherwise;
