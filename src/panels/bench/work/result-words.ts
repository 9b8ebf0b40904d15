import result from '../../../../content/messages/en/bench-result.json';
import { sentenceOf } from '../../../words/spoken.ts';
import { fill, type Word } from './words.ts';

export type ResultKey = keyof typeof result;

/** A sentence of the result, which is fetched once there is one. */
export const sayResult = (key: ResultKey, words: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('bench-result', result, key), words);
