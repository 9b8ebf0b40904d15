import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const tracked = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
  cwd: ROOT,
  encoding: 'utf8',
})
  .split('\n')
  .filter(Boolean);
const code = tracked.filter((path) => /\.(ts|tsx|astro)$/.test(path) && path.startsWith('src/'));
const lines = (path: string) => readFileSync(resolve(ROOT, path), 'utf8').split('\n').length;

describe('the files of the house', () => {
  it('keeps the top level short', () => {
    const entries = readdirSync(ROOT, { withFileTypes: true })
      .filter((e) => tracked.some((path) => path === e.name || path.startsWith(`${e.name}/`)))
      .map((e) => e.name)
      .filter(
        (name) =>
          !name.startsWith('.') &&
          !/^(tsconfig.*\.json|biome\.json|package-lock\.json)$/.test(name),
      );
    const allowed = [
      'README.md',
      'DEVELOPERS.md',
      'package.json',
      'astro.config.mjs',
      // container builders look for it here
      'Containerfile',
      'src',
      'content',
      'public',
      'tests',
    ];
    expect(entries.filter((name) => !allowed.includes(name))).toEqual([]);
  });

  it('keeps every file under 400 lines, and half of them under 120', () => {
    const counts = code.map((path) => ({ path, count: lines(path) }));
    expect(counts.filter((one) => one.count > 400)).toEqual([]);
    const sorted = counts.map((one) => one.count).sort((a, b) => a - b);
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThan(120);
  });

  it('names files in kebab-case, and has no drawer for odds and ends', () => {
    const odd = tracked.filter(
      (path) => /^(src|tests)\//.test(path) && !/^[a-z0-9.[\]/_-]+$/.test(path),
    );
    expect(odd).toEqual([]);
    const drawers = code.filter((path) =>
      /\/(utils?|helpers?|misc|types|common)(\/|\.tsx?$)/.test(path),
    );
    expect(drawers).toEqual([]);
  });

  it('lays pages out by start and end, never by left and right', () => {
    // a thing centred by half of the width is the same in both directions
    const physical =
      /(?:^|[\s;{])(?:(?:margin|padding|border)-(?:left|right)[\w-]*|(?:left|right)(?=:)|float: (?:left|right)|text-align: (?:left|right))(?!: 50%)/;
    const sheets = tracked.filter((path) => /^src\/.*\.css$/.test(path));
    const found = sheets.flatMap((path) =>
      readFileSync(resolve(ROOT, path), 'utf8')
        .split('\n')
        .flatMap((line, i) => (physical.test(line) ? [`${path}:${i + 1} ${line.trim()}`] : [])),
    );
    expect(sheets.length).toBeGreaterThan(10);
    expect(found).toEqual([]);
  });

  it('exports by name only', () => {
    const byDefault = code.filter(
      (path) =>
        /\.tsx?$/.test(path) && /^export default/m.test(readFileSync(resolve(ROOT, path), 'utf8')),
    );
    expect(byDefault).toEqual([]);
  });
});
