import observed from '../../../../content/messages/en/observed.json';
import type { Observation, Seen } from '../../../bench/index.ts';
import { fill, type Word } from './words.ts';

const vocabulary: Readonly<Record<string, string>> = observed;

/** A word of the bench file in plain words, where there are some for it. */
const named = (name: string, seen: Seen): Word =>
  typeof seen === 'string' ? (vocabulary[`${name}.${seen}`] ?? seen) : seen;

/** One thing seen, as a sentence. */
export function tell({ key, values }: Observation): string {
  const words = Object.fromEntries(
    Object.entries(values).map(([name, seen]) => [name, named(name, seen)]),
  );
  return fill(vocabulary[key] ?? key, words);
}
