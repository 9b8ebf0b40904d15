import observed from '../../../../content/messages/en/observed.json';
import type { Observation, Seen } from '../../../bench/index.ts';
import { sentenceOf } from '../../../words/spoken.ts';
import { fill, type Word } from './words.ts';

/** A sentence or word of what is seen, or nothing for a key nobody has words for. */
const written = (key: string): string | undefined =>
  Object.hasOwn(observed, key)
    ? sentenceOf('observed', observed, key as keyof typeof observed)
    : undefined;

/** A word of the bench file in plain words, where there are some for it. */
const named = (name: string, seen: Seen): Word =>
  typeof seen === 'string' ? (written(`${name}.${seen}`) ?? seen) : seen;

/** One thing seen, as a sentence. */
export function tell({ key, values }: Observation): string {
  const words = Object.fromEntries(
    Object.entries(values).map(([name, seen]) => [name, named(name, seen)]),
  );
  return fill(written(key) ?? key, words);
}
