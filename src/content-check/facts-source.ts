import { type Flaw, problem } from './flaw.ts';
import { isRecord } from './questions-source.ts';
import { readYamlSource } from './yaml-source.ts';

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

const SEEN = ['primary', 'secondary', 'memory', 'practice'];

export function readFactsSource(file: string, text: string): FactsSource {
  const source = readYamlSource(file, text);
  const group = isRecord(source.value) ? source.value['facts'] : undefined;
  const flaws = [...source.flaws];
  if (!isRecord(group) && flaws.length === 0)
    flaws.push(problem(file, 1, 'The file must hold one group, facts, with a fact under each id.'));
  const facts = Object.entries(isRecord(group) ? group : {}).map(([id, value]): Fact => {
    const fact = isRecord(value) ? value : {};
    const from = isRecord(fact['source']) ? fact['source'] : {};
    const line = Math.max(1, source.lineOf(['facts', id]) - 1);
    const say = (says: string) => flaws.push(problem(file, line, `${id}: ${says}`));
    const seen = String(from['seen'] ?? '');
    if (!['number', 'string'].includes(typeof fact['value']))
      say('value must be a number or a short text.');
    if (!SEEN.includes(seen)) say(`source.seen must be ${SEEN.join(', ')}.`);
    if (typeof from['title'] !== 'string') say('source.title must name the document.');
    return { id, seen, says: typeof fact['says'] === 'string' ? fact['says'] : '', line };
  });
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
