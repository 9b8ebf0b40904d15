import words from '../../../../content/messages/en/sitting.json';
import { fill, type Word } from '../../bench/work/words.ts';

export type SittingKey = keyof typeof words;

/** A sentence of this panel. */
export const say = (key: SittingKey, put: Readonly<Record<string, Word>> = {}): string =>
  fill(words[key], put);
