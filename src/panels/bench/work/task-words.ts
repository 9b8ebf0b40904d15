import task from '../../../../content/messages/en/bench-task.json';
import type { FigureUnit } from '../../../bench/index.ts';
import { figuresIn } from '../../../words/index.ts';
import { pageLanguage, sentenceOf } from '../../../words/spoken.ts';
import { fill, sayLength, type Word } from './words.ts';

export type TaskKey = keyof typeof task;

/** A sentence about what a task asks for, fetched with the first paper that needs it. */
export const sayTask = (key: TaskKey, words: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('bench-task', task, key), words);

/** How units are written after their number; a length follows the unit shown. */
const WRITTEN: Partial<Record<FigureUnit, string>> = {
  '1': '',
  count: '',
  deg: '°',
  '%': ' %',
  'N m': ' N·m',
  'mg/m3': ' mg/m³',
  'kg/m3': ' kg/m³',
};

export const sayUnit = (unit: FigureUnit): string => (WRITTEN[unit] ?? unit).trim();

/** A figure with its unit, lengths in the unit shown. */
export function sayFigure(value: number, unit: FigureUnit, digits: number): string {
  if (unit === 'mm') return sayLength({ mm: value, digits });
  const figure = String(Number(value.toFixed(digits)));
  return `${figuresIn(pageLanguage(), figure)}${WRITTEN[unit] ?? ` ${unit}`}`;
}
