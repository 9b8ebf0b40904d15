import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';

const FOLDER = join(import.meta.dirname, 'asvs');
type Row = {
  readonly id: string;
  readonly level: number;
  readonly about: string;
  readonly answer: string;
  readonly shownBy?: readonly string[];
  readonly because?: string;
};
const read = <Value>(name: string): Value => parse(readFileSync(join(FOLDER, name), 'utf8'));
const { source, chapters } = read<{ source: string; chapters: Readonly<Record<string, string>> }>(
  'ids.yaml',
);
const files = readdirSync(FOLDER).filter((name) => /^v\d+\.yaml$/.test(name));
const rows = files.flatMap((name) => read<Row[]>(name));

/** Why a named test is not there, or null. */
function whyMissing(named: string): string | null {
  const at = named.indexOf(': ');
  const [file, title] = [named.slice(0, at), named.slice(at + 2)];
  if (!existsSync(file)) return `there is no ${file}`;
  return readFileSync(file, 'utf8').includes(title) ? null : `${file} has no "${title}"`;
}

/** OWASP ASVS 5.0.0: the numbers of its requirements are data of its own, kept with their source. */
describe('the answers to ASVS 5.0, levels 1 and 2', () => {
  it.each(Object.entries(chapters))(
    '%s has every requirement once, at its level',
    (chapter, ids) => {
      const wanted = ids.split(' ').map((one) => `V${one}`);
      const found = read<Row[]>(`${chapter.toLowerCase()}.yaml`).map(
        ({ id, level }) => `${id}:${level}`,
      );
      expect(source).toContain('5.0.0');
      expect(found.sort()).toEqual([...wanted].sort());
    },
  );

  it('are each shown by tests that exist, or give their reason', () => {
    const wrong = rows.flatMap(({ id, answer, shownBy = [], because = '', about }) => {
      if (about === '') return [`${id} says nothing`];
      if (answer === 'met') {
        if (shownBy.length === 0) return [`${id} is shown by nothing`];
        return shownBy.flatMap((named) => whyMissing(named) ?? []).map((why) => `${id}: ${why}`);
      }
      if (!['not applicable', 'not met'].includes(answer)) return [`${id}: ${answer} is no answer`];
      return because.length > 10 ? [] : [`${id} gives no reason`];
    });
    expect(wrong).toEqual([]);
    const count = Object.entries(Object.groupBy(rows, ({ answer }) => answer));
    console.log(count.map(([answer, all]) => `${answer}: ${all?.length ?? 0}`).join(', '));
  });
});
