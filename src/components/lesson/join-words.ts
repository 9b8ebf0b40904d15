import type { z } from 'zod';
import type { Language } from '../../words/index.ts';
import type { GlossaryFileSchema, GlossaryWord } from './lesson-schema.ts';

type GlossaryFile = z.infer<typeof GlossaryFileSchema>;

/**
 * The files of trade words as one map, in alphabetical order of the words.
 * @throws when an id is used twice, or a word sends the reader to one that is not there
 */
export function joinWords(
  files: readonly GlossaryFile[],
  language: Language = 'en',
): ReadonlyMap<string, GlossaryWord> {
  const all = files.flatMap(({ words }) =>
    Object.entries(words).map(([id, word]): GlossaryWord => ({ id, ...word })),
  );
  const joined = new Map(
    all.sort((a, b) => a.term.localeCompare(b.term, language)).map((word) => [word.id, word]),
  );
  if (joined.size !== all.length) throw new Error('A trade word is defined twice.');
  for (const { id, see } of joined.values()) {
    const lost = see?.find((other) => !joined.has(other));
    if (lost !== undefined)
      throw new Error(`The word ${id} sends the reader to ${lost}, which is not there.`);
  }
  return joined;
}
