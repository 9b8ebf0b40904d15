import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

/** Words of the interface stand in content/messages and nowhere in the templates. */
const ROOT = resolve(import.meta.dirname, '../..');
const templates = execFileSync('git', ['ls-files', 'src'], { cwd: ROOT, encoding: 'utf8' })
  .split('\n')
  .filter((path) => /\.(astro|tsx)$/.test(path));

/** Names that are the same in every language. */
const NAMES = ['Signed to Saw'];

/** Pages whose words are still in the template: to be moved, never to be added to. */
const STILL_TO_MOVE: readonly string[] = [];

function wordsIn(path: string): string[] {
  const whole = readFileSync(resolve(ROOT, path), 'utf8');
  const template = path.endsWith('.astro')
    ? whole.replace(/^---\n[\s\S]*?\n---\n/, '').replace(/<script[\s\S]*?<\/script>/g, '')
    : whole;
  const texts = [...template.matchAll(/>\s*([^<>{}=;()]*[A-Za-z]{3,}[^<>{}=;()]*?)\s*</g)].map(
    ([, text]) => text ?? '',
  );
  const attributes = [
    ...template.matchAll(
      /(?:aria-label|title|label|placeholder|alt|description|sentence|word)="([^"]*[A-Za-z]{3,}[^"]*)"/g,
    ),
  ].map(([, text]) => text ?? '');
  // `Promise<void>` and the like in a .tsx file are types, not words
  return [...texts, ...attributes].filter(
    (text) =>
      !NAMES.includes(text) &&
      (/\s/.test(text) || /^[A-Z][a-z]+$/.test(text)) &&
      !/[|&]/.test(text) &&
      !/^Promise$/.test(text),
  );
}

it('keeps every word a person reads in the catalogue', () => {
  const found = templates
    .filter((path) => !STILL_TO_MOVE.includes(path))
    .flatMap((path) => wordsIn(path).map((text) => `${path}: ${text.slice(0, 60)}`));
  expect(templates.length).toBeGreaterThan(100);
  expect(found).toEqual([]);
});

it('has a word for one and for more wherever a page counts something', () => {
  // a panel says its own sheet, without naming it
  const counted = execFileSync('git', ['ls-files', 'src'], { cwd: ROOT, encoding: 'utf8' })
    .split('\n')
    .filter((path) => /^src\/(pages|components|layouts)\/.*\.(astro|ts)$/.test(path))
    .flatMap((path) => [
      ...readFileSync(resolve(ROOT, path), 'utf8').matchAll(
        /\bsay\.count\(\s*'([a-z-]+)\.([\w.-]+)'/g,
      ),
    ]);
  expect(counted.length).toBeGreaterThan(20);
  const missing = counted.flatMap(([, sheet = '', key = '']) => {
    const file = resolve(ROOT, `content/messages/en/${sheet}.json`);
    const words = JSON.parse(readFileSync(file, 'utf8')) as Record<string, string>;
    return ['one', 'other'].map((form) => `${key}.${form}`).filter((form) => !(form in words));
  });
  expect(missing).toEqual([]);
});

it('keeps the list of what is still to move true', () => {
  expect(STILL_TO_MOVE.filter((path) => wordsIn(path).length === 0)).toEqual([]);
});
