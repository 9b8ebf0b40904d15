import { FactFileSchema } from '../components/lesson/lesson-schema.ts';
import { type Flaw, problem } from './flaw.ts';
import { readWithSchema, readYamlSource } from './yaml-source.ts';

/** One published number that is no limit. */
export type Fact = {
  readonly id: string;
  readonly seen: string;
  readonly says: string;
  readonly line: number;
};

export type FactsSource = {
  readonly file: string;
  readonly facts: readonly Fact[];
  readonly flaws: readonly Flaw[];
};

export function readFactsSource(file: string, text: string): FactsSource {
  const source = readYamlSource(file, text);
  const { value, flaws } = readWithSchema(source, FactFileSchema);
  const facts = Object.entries(value?.facts ?? {}).map(
    ([id, fact]): Fact => ({
      id,
      seen: fact.source.seen,
      says: fact.says,
      line: Math.max(1, source.lineOf(['facts', id]) - 1),
    }),
  );
  return { file, facts, flaws };
}

/** An id names one fact, whichever file it is in. */
export function checkFacts(files: readonly FactsSource[]): readonly Flaw[] {
  const taken = new Map<string, string>();
  const flaws = files.flatMap((file) => [...file.flaws]);
  for (const { file, facts } of files) {
    for (const { id, line } of facts) {
      const other = taken.get(id);
      if (other !== undefined)
        flaws.push(problem(file, line, `${id}: already a fact of ${other}.`));
      taken.set(id, file);
    }
  }
  return flaws;
}
