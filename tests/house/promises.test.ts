import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

const read = (file: string) => readFileSync(resolve(import.meta.dirname, '../..', file), 'utf8');

/** OWASP ASVS 5.0.0, 15.1.1: time frames by risk for libraries with a known fault, and for all of them. */
it('a library with a known fault is mended within days that follow from how grave it is', () => {
  const [, part = ''] =
    /## Libraries with a known fault\n([\s\S]*?)\n## /.exec(read('DEVELOPERS.md')) ?? [];
  const rows = [
    ...part.matchAll(/^\| (critical|high|moderate|low) +\| (\d+) days +\| (\d+) days +\|$/gm),
  ];
  // the words npm audit uses, the gravest first
  expect(rows.map(([, severity]) => severity)).toEqual(['critical', 'high', 'moderate', 'low']);
  const inUse = rows.map(([, , days]) => Number(days));
  const toBuild = rows.map(([, , , days]) => Number(days));
  for (const days of [inUse, toBuild])
    expect([...new Set(days)].sort((a, b) => a - b)).toEqual(days);
  expect(inUse.every((days, i) => days < (toBuild[i] ?? 0))).toBe(true);
  expect(part).toMatch(/Every library is brought up to date every \d+ days\./);
});

/** OWASP ASVS 5.0.0, 15.1.3: what takes long or much, and what guards it, each figure as the code has it. */
it('what takes long is guarded by figures that stand in the code', () => {
  const [, part = ''] =
    /## What takes long, and what guards it\n([\s\S]*?)\n## /.exec(read('src/deploy/growing.md')) ??
    [];
  const named = [...part.matchAll(/`(src\/[^ `]+): ([^`]+)`/g)];
  expect(named.length).toBeGreaterThan(12);
  const gone = named.filter(([, file = '', text = '']) => !read(file).includes(text));
  expect(gone.map(([whole]) => whole)).toEqual([]);
});
