import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readContainerfile } from './read-containerfile.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const read = (name: string) => readFileSync(join(ROOT, name), 'utf8');
const instructions = readContainerfile(read('Containerfile'));
const all = (name: string) => instructions.filter((one) => one.name === name);
const from = instructions.findLastIndex(({ name }) => name === 'FROM');
const last = instructions.slice(from);
const SECRET = /TOKEN|SECRET|PASSW|KEY|DATABASE|CREDENTIAL/i;

/** What is let into the image: everything is left out, but for these. */
const letIn = read('.containerignore')
  .split('\n')
  .filter((line) => line.startsWith('!'))
  .map((line) => line.slice(1));

describe('the container file', () => {
  it('copies only what is there and what is let in', () => {
    const sources = all('COPY')
      .filter(({ words }) => !words.some((word) => word.startsWith('--from')))
      .flatMap(({ words }) => words.slice(0, -1));
    expect(sources.length).toBeGreaterThan(5);
    expect(sources.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
    const names = sources.map((path) => path.replace(/^\.\//, ''));
    expect(names.sort()).toEqual([...letIn].sort());
    expect(read('.containerignore')).toMatch(/^\*$/m);
  });

  it('copies everything the pages are built from', () => {
    const [, list = ''] = /const SOURCES = \[(.+)\]/.exec(read('src/cli/build-site.ts')) ?? [];
    const built = [...list.matchAll(/'([^']+)'/g)].map(([, path]) => path ?? '');
    expect(built.length).toBeGreaterThan(3);
    expect(built.filter((path) => !letIn.includes(path))).toEqual([]);
  });

  it('holds no secret in its layers', () => {
    const named = [...all('ENV'), ...all('ARG')].flatMap(({ words }) => words);
    expect(named.length).toBeGreaterThan(3);
    expect(named.filter((word) => SECRET.test(word))).toEqual([]);
    expect(all('RUN').filter(({ words }) => SECRET.test(words.join(' ')))).toEqual([]);
    expect(letIn.filter((path) => /^(data|\.git|dist|node_modules)/.test(path))).toEqual([]);
  });

  it('runs as a user without rights, keeps its records apart, and says how it is', () => {
    const names = last.map(({ name }) => name);
    const user = last.find(({ name }) => name === 'USER')?.words[0];
    expect(user).toMatch(/^[a-z]+$/);
    expect(user).not.toBe('root');
    expect(names.indexOf('USER')).toBeLessThan(names.indexOf('CMD'));
    expect(last.find(({ name }) => name === 'VOLUME')?.words).toEqual(['/data']);
    for (const name of ['HEALTHCHECK', 'STOPSIGNAL', 'EXPOSE']) expect(names).toContain(name);
    expect(read('Containerfile')).toContain('DATA_DIR=/data');
  });

  it('starts what is there, with the Node it was installed with, and builds nothing then', () => {
    const command = last.find(({ name }) => name === 'CMD')?.words.join(' ') ?? '[]';
    const words: string[] = JSON.parse(command);
    expect(words).toEqual(['node_modules/.bin/node', 'src/cli/start.ts', '--built']);
    expect(existsSync(join(ROOT, words[1] ?? ''))).toBe(true);
    const health = last.find(({ name }) => name === 'HEALTHCHECK')?.words.join(' ') ?? '';
    const [, script = ''] = /"(src\/[^"]+)"/.exec(health) ?? [];
    expect(existsSync(join(ROOT, script))).toBe(true);
    expect(all('RUN').some(({ words: run }) => run.join(' ').startsWith('npm ci --omit=dev'))).toBe(
      true,
    );
  });
});
