import { GlossaryFileSchema, type GlossaryWord } from '../components/lesson/lesson-schema.ts';
import { type Flaw, problem } from './flaw.ts';
import { readingAge } from './reading-age.ts';
import { readWithSchema, readYamlSource } from './yaml-source.ts';

/** One file of trade words. */
export type GlossarySource = {
  readonly language: string;
  readonly file: string;
  readonly words: readonly (GlossaryWord & { readonly line: number })[];
  readonly flaws: readonly Flaw[];
};

export function readGlossarySource(
  where: { readonly language: string; readonly file: string },
  text: string,
): GlossarySource {
  const source = readYamlSource(where.file, text);
  const { value, flaws } = readWithSchema(source, GlossaryFileSchema);
  const words = Object.entries(value?.words ?? {}).map(([id, word]) => ({
    id,
    ...word,
    line: source.lineOf(['words', id]) - 1,
  }));
  return { ...where, words, flaws };
}

/** An explanation is for a beginner: two plain sentences at most. */
const HARDEST = 15;
const MOST_SENTENCES = 2;

/** What is wrong among the words of one language: doubles, lost pointers, hard explanations. */
export function checkGlossary(
  files: readonly GlossarySource[],
  language: string,
  english: ReadonlySet<string>,
): readonly Flaw[] {
  const own = files.filter((file) => file.language === language);
  const all = own.flatMap(({ file, words }) => words.map((word) => ({ file, ...word })));
  const ids = new Set(all.map(({ id }) => id));
  const taken = new Map<string, string>();
  const flaws: Flaw[] = own.flatMap((file) => file.flaws);
  for (const word of all) {
    const say = (says: string) => flaws.push(problem(word.file, word.line, `${word.id}: ${says}`));
    for (const name of new Set(
      [word.id, word.term, ...(word.also ?? [])].map((one) => one.toLowerCase()),
    )) {
      const other = taken.get(name);
      if (other !== undefined && other !== `${word.id} ${word.file}`) {
        const [owner, file] = other.split(' ');
        say(`"${name}" already names ${owner} in ${file}; one thing has one entry.`);
      } else taken.set(name, `${word.id} ${word.file}`);
    }
    for (const other of word.see ?? []) {
      if (!ids.has(other) && !english.has(other))
        say(`see names ${other}, which is not in the glossary.`);
      if (other === word.id) say('see names the word itself; leave it out.');
    }
    if (language !== 'en') {
      if (!english.has(word.id)) say('there is no such word in the English glossary.');
      continue;
    }
    const sentences = word.meaning.match(/[.!?](\s|$)/g)?.length ?? 0;
    if (sentences > MOST_SENTENCES)
      say(`the meaning has ${sentences} sentences; at most ${MOST_SENTENCES}.`);
    const age = readingAge(word.meaning);
    if (age > HARDEST)
      say(
        `the meaning reads at the age of ${age.toFixed(1)}; at most ${HARDEST}. Use shorter words.`,
      );
  }
  return flaws;
}
