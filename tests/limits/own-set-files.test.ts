import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import {
  ContentProblem,
  loadLimitSetFile,
  loadLimitSets,
  ownLimitProblems,
} from '../../src/store/content-files.ts';

const made: string[] = [];
afterEach(() => {
  for (const dir of made.splice(0)) rmSync(dir, { recursive: true });
});

function folderOf(files: Record<string, string>): string {
  const dir = mkdtempSync(join(tmpdir(), 'own-limits-'));
  made.push(dir);
  mkdirSync(dir, { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(join(dir, name), text);
  return dir;
}

const own = (id: string, max = 6) => `schema: limits/1
id: ${id}
version: 1
title: Workshop rules
edition: Agreed in the workshop
caution: Not the law.
basis: own
extends: gb
documents:
  rules: { title: Workshop rules }
changes:
  - limit: gb.knife.gap
    max: ${max}
    source: { document: rules, seen: primary }
`;

describe("an organisation's own sets", () => {
  test('stand after the published ones', () => {
    const sets = loadLimitSets('content', folderOf({ 'alder.yaml': own('alder') }));
    expect([...sets.keys()].at(-1)).toBe('alder');
    expect(sets.get('alder')?.limits.some(({ id }) => id === 'alder.knife.gap')).toBe(true);
    expect(Object.isFrozen(sets.get('alder')?.limits)).toBe(true);
  });

  test('that loosen are left out, with file, line and what the field may be', () => {
    const dir = folderOf({ 'alder.yaml': own('alder'), 'loose.yaml': own('loose', 9) });
    expect(loadLimitSets('content', dir).has('alder')).toBe(true);
    expect(loadLimitSets('content', dir).has('loose')).toBe(false);
    expect(ownLimitProblems('content', dir)).toEqual([
      expect.stringMatching(
        /loose\.yaml, line 13: changes\[0\]\.max must be at most 8 mm, to be as strict as gb\.knife\.gap\.$/,
      ),
    ]);
  });

  test('that take the name of a published set are left out', () => {
    const dir = folderOf({ 'gb.yaml': own('gb') });
    expect(ownLimitProblems('content', dir)[0]).toMatch(
      /gb\.yaml, line 2: id must not be gb, which is a published set\.$/,
    );
    expect(loadLimitSets('content', dir).get('gb')?.basis).toBe('published');
  });

  test('that are named otherwise than their file, or are no YAML, are left out', () => {
    const dir = folderOf({ 'a.yaml': own('b'), 'c.yaml': 'id: [c', 'd.yml': 'a: &a [*a, *a]' });
    const problems = ownLimitProblems('content', dir);
    expect(problems).toHaveLength(3);
    expect(problems[0]).toMatch(/a\.yaml: id must be a, as the file is named\.$/);
    expect(problems[1]).toMatch(/c\.yaml, line \d+: not valid YAML/);
    expect(problems[2]).toMatch(/d\.yml/);
  });

  test('are read again when a file changes, and kept while none does', () => {
    const dir = folderOf({ 'alder.yaml': own('alder') });
    const first = loadLimitSets('content', dir);
    expect(loadLimitSets('content', dir)).toBe(first);
    writeFileSync(join(dir, 'alder.yaml'), own('alder', 5));
    utimesSync(join(dir, 'alder.yaml'), new Date(), new Date(Date.now() + 5000));
    const limit = loadLimitSets('content', dir)
      .get('alder')
      ?.limits.find(({ changes }) => changes);
    expect(limit?.asWritten.max).toBe(5);
  });

  test('are none where there is no folder for them', () => {
    expect(ownLimitProblems('content', '/nowhere')).toEqual([]);
    expect(
      [...loadLimitSets('content', '/nowhere').values()].every(({ basis }) => basis !== 'own'),
    ).toBe(true);
  });
});

describe('a set from any file', () => {
  const known = loadLimitSets('content', '/nowhere');

  test('need not be named as its file', () => {
    const path = join(folderOf({ 'rules-of-2026.yaml': own('alder') }), 'rules-of-2026.yaml');
    expect(loadLimitSetFile(path, known).id).toBe('alder');
  });

  test('that is not there, too large or loosens is refused', () => {
    const dir = folderOf({ 'loose.yaml': own('loose', 9), 'huge.yaml': ' '.repeat(2_000_001) });
    expect(() => loadLimitSetFile(join(dir, 'nowhere.yaml'), known)).toThrow(
      /nowhere\.yaml cannot be read\.$/,
    );
    expect(() => loadLimitSetFile(join(dir, 'huge.yaml'), known)).toThrow(
      /huge\.yaml is too large: a content file is at most 2 MB\.$/,
    );
    expect(() => loadLimitSetFile(join(dir, 'loose.yaml'), known)).toThrow(ContentProblem);
  });
});

describe('what is wrong in an own file is named by its line', () => {
  const known = loadLimitSets('content', '/nowhere');
  const said = (text: string) => {
    const path = join(folderOf({ 'alder.yaml': text }), 'alder.yaml');
    try {
      loadLimitSetFile(path, known);
    } catch (error) {
      return (error as Error).message.slice((error as Error).message.indexOf('alder.yaml'));
    }
    return 'accepted';
  };
  const withLine = (line: string, instead: string) => {
    const text = own('alder');
    expect(text).toContain(line);
    return said(text.replace(line, instead));
  };

  test('a sound one is taken', () => {
    expect(said(own('alder'))).toBe('accepted');
  });

  test.each([
    ['    max: 6', '    max: .nan', 13, 'changes[0].max must be a number.'],
    ['    max: 6', '    max: .inf', 13, 'changes[0].max must be a number.'],
    ['    max: 6', '    max: -.inf', 13, 'changes[0].max must be a number.'],
    ['    max: 6', '    max: six', 13, 'changes[0].max must be a number.'],
    ['    max: 6', '    max: 10000', 13, 'changes[0].max must be at most 8 mm'],
    ['    max: 6', '    maximum: 6', 12, 'changes[0] has no field named maximum.'],
    ['title: Workshop rules\nedition', 'colour: red\nedition', 1, 'title must be text of 1 to 120'],
    ['version: 1', 'version: -1', 3, 'version must be a whole number from 1.'],
    ['version: 1', 'version: 1.5', 3, 'version must be a whole number from 1.'],
    ['basis: own', 'basis: rumour', 7, 'basis must be one of: published, practice, own.'],
    ['extends: gb', 'extends: mars', 8, 'extends must name one of: '],
    ['seen: primary', 'seen: heard', 14, 'changes[0].source.seen must be one of: primary'],
  ])('%j for %j: line %d', (line, instead, number, sentence) => {
    const message = withLine(line, instead);
    expect(message).toContain(`alder.yaml, line ${number}: `);
    expect(message).toContain(sentence);
  });

  test.each([
    ['a bracket left open', own('alder').replace('{ title: Workshop rules }', '{ title: Workshop')],
    ['a tab for spaces', own('alder').replace('    max', '\tmax')],
    ['a field given twice', own('alder').replace('version: 1', 'version: 1\nversion: 2')],
    ['nesting without end', `id: ${'['.repeat(20_000)}`],
  ])('%s is broken YAML', (_what, text) => {
    const message = said(text);
    expect(message).toMatch(/^alder\.yaml(, line \d+)?: not valid YAML/);
    expect(message).not.toMatch(/\n.*\n| {4}at /);
  });

  test.each([
    ['nothing at all', ''],
    ['a list', '- 1\n- 2\n'],
    ['bytes that are no text', '\u0000\u0001\u0002'],
  ])('%s is refused, not read', (_what, text) => {
    expect(said(text)).toMatch(/^alder\.yaml.+\.$/s);
  });
});

describe('the set for a German building-site saw', () => {
  const sets = loadLimitSets('content', '/nowhere');
  test('differs from that for Germany in the knife gap alone', () => {
    const [de, site] = [sets.get('de'), sets.get('de-site')];
    expect(site?.base).toBe(`de@${de?.version}`);
    const changed = site?.limits.filter(({ changes }) => changes !== null);
    expect(changed?.map(({ id }) => id)).toEqual(['de-site.knife.gap']);
    expect(site?.limits).toHaveLength(de?.limits.length ?? 0);
  });
});
