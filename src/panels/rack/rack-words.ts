import rack from '../../../content/messages/en/rack.json';
import { sentenceOf } from '../../words/spoken.ts';
import { fill, type Word } from '../bench/work/words.ts';

export type RackKey = keyof typeof rack;

/** A sentence of the rack, which is fetched where something is to be chosen. */
export const sayRack = (key: RackKey, words: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('rack', rack, key), words);
