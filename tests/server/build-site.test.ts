import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildSite, needsBuild } from '../../src/cli/build-site.ts';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'build-test-'));
  for (const file of [
    'src/pages/index.astro',
    'src/cli/start.ts',
    'src/server/index.ts',
    'src/deploy/growing.md',
    'content/limits/gb.yaml',
    'public/favicon.svg',
    'astro.config.mjs',
    'package-lock.json',
  ]) {
    put(file, '');
  }
  putBuilder(`import { mkdirSync } from 'node:fs'; mkdirSync('dist', { recursive: true });`);
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function put(file: string, text: string): void {
  mkdirSync(dirname(join(root, file)), { recursive: true });
  writeFileSync(join(root, file), text);
}

/** Stands in for the real builder, which takes seconds. */
function putBuilder(script: string): void {
  put('node_modules/astro/bin/astro.mjs', script);
}

const touch = (file: string) => {
  const later = new Date(Date.now() + 60_000);
  utimesSync(join(root, file), later, later);
};
const build = () => buildSite(root, () => undefined);

describe('the pages', () => {
  it('are built when there are none, and not again while nothing changes', async () => {
    expect(needsBuild(root)).toBe(true);
    expect(await build()).toBeNull();
    expect(needsBuild(root)).toBe(false);
  });

  it.each([
    ['src/pages/index.astro', true],
    ['content/limits/gb.yaml', true],
    ['public/favicon.svg', true],
    ['astro.config.mjs', true],
    ['package-lock.json', true],
    ['src/cli/start.ts', false],
    ['src/server/index.ts', true],
    ['src/deploy/growing.md', false],
  ])('after a change to %s are built again: %s', async (file, again) => {
    await build();
    touch(file);
    expect(needsBuild(root)).toBe(again);
  });

  it('are built again when a file was taken away', async () => {
    await build();
    rmSync(join(root, 'content/limits/gb.yaml'));
    touch('content/limits');
    expect(needsBuild(root)).toBe(true);
  });

  it('of a build that failed are never served, and its words are passed on', async () => {
    putBuilder(`console.error('index.astro: no such thing'); process.exit(1);`);
    expect(await build()).toContain('index.astro: no such thing');
    expect(existsSync(join(root, 'dist/built.json'))).toBe(false);
    expect(needsBuild(root)).toBe(true);
  });

  it('are built once when two processes start at the same moment', async () => {
    putBuilder(
      `import { appendFileSync, mkdirSync } from 'node:fs';
       mkdirSync('dist', { recursive: true }); appendFileSync('builds.txt', 'x');`,
    );
    expect(await Promise.all([build(), build()])).toEqual([null, null]);
    expect(readFileSync(join(root, 'builds.txt'), 'utf8')).toBe('x');
  });

  it('are built although a process that was killed left its lock', async () => {
    const dead = spawnSync(process.execPath, ['-e', '']);
    put('.astro/build.lock', String(dead.pid));
    expect(await build()).toBeNull();
    expect(existsSync(join(root, '.astro/build.lock'))).toBe(false);
  });

  it('tell how far they are', async () => {
    let said = '';
    await buildSite(root, (text) => {
      said += text;
    });
    expect(said).toMatch(/^Building the pages.* done in \d+ s\.\n$/);
  });
});
