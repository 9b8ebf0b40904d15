import words from '../../../../content/messages/en/sitting.json';
import { sentenceOf } from '../../../words/spoken.ts';
import { fill, type Word } from '../../bench/work/words.ts';

export type SittingKey = keyof typeof words;

/** A sentence of this panel. */
export const say = (key: SittingKey, put: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('sitting', words, key), put);
