import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readContainerfile } from './read-containerfile.ts';
import { takesNode } from './takes-node.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const read = (name: string) => readFileSync(join(ROOT, name), 'utf8');
const { optionalDependencies, engines } = JSON.parse(read('package.json'));

type Locked = {
  readonly os?: string | readonly string[];
  readonly cpu?: string | readonly string[];
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly bin?: Readonly<Record<string, string>>;
  readonly engines?: { readonly node?: string };
};
const locked: [string, Locked][] = Object.entries(JSON.parse(read('package-lock.json')).packages);

/** What the lock keeps for Linux on `cpu` and for no other machine, without what is there to build and test alone. */
const onlyFor = (cpu: string) =>
  locked.filter(
    ([, one]) =>
      one.optional &&
      !one.dev &&
      [one.os].flat().includes('linux') &&
      [one.cpu].flat().includes(cpu),
  );
const refusing = (cpu: string, node: string) =>
  onlyFor(cpu).filter(([, one]) => !takesNode(one.engines?.node ?? '>=0', node));

describe.each(['x64', 'arm64'])('the Node that npm ci brings to Linux on %s', (cpu) => {
  const name = `node-linux-${cpu}`;

  it('is the only package there with a program of that name', () => {
    const named = onlyFor(cpu).filter(([, { bin }]) => bin?.['node']);
    expect(named.map(([path]) => path)).toEqual([`node_modules/${name}`]);
  });

  it('is taken by every native part, so that an npm run by it leaves none out', () => {
    expect(onlyFor(cpu).length).toBeGreaterThan(8);
    expect(refusing(cpu, optionalDependencies[name])).toEqual([]);
  });

  it('may be fetched by what package.json says', () => {
    // the first Node of each line that package.json lets in
    for (const node of ['20.19.0', '22.12.0', '24.0.0']) {
      expect(takesNode(engines.node, node), node).toBe(true);
      expect(refusing(cpu, node), node).toEqual([]);
    }
    // npm leaves out without a word what says it needs a later one
    for (const node of ['18.20.4', '20.18.3', '22.11.0']) {
      expect(takesNode(engines.node, node), node).toBe(false);
      expect(refusing(cpu, node).length, node).toBeGreaterThan(0);
    }
  });
});

describe('the container file', () => {
  const runs = readContainerfile(read('Containerfile'))
    .filter(({ name }) => name === 'RUN')
    .map(({ words }) => words.join(' '));

  it('fetches npm and Node before it installs the lock, and runs what that brought', () => {
    const fetched = runs.findIndex((run) => run.includes('npm install --global'));
    const installed = runs.findIndex((run) => run.startsWith('npm ci'));
    expect(fetched).toBeGreaterThanOrEqual(0);
    expect(installed).toBeGreaterThan(fetched);
    expect(runs[fetched]).toContain('--ignore-scripts');
    expect(runs[fetched]).toMatch(/node-linux-\$\(node -p process\.arch\)/);
    expect(runs[installed]).toMatch(/&& node_modules\/\.bin\/node --version$/);
    // npm 9.2.0, 9.9.4 and 10.8.2 were seen to take the link away, 11.19.1 to keep it
    const [, major] = /^ARG NPM_VERSION=(\d+)\.\d+\.\d+$/m.exec(read('Containerfile')) ?? [];
    expect(Number(major)).toBeGreaterThanOrEqual(11);
  });
});

describe('the npm at hand', () => {
  let folder: string;
  const site = () => join(folder, 'site');
  const npm = (cwd: string, ...words: string[]) => {
    const { status, stderr } = spawnSync('npm', [...words, '--offline'], { cwd, encoding: 'utf8' });
    expect(status, stderr).toBe(0);
  };

  /** A package with one program, `tool`, for one system alone. */
  function packTool(system: string): void {
    const place = join(folder, system);
    mkdirSync(place);
    writeFileSync(join(place, 'tool'), '#!/bin/sh\n');
    const about = { name: `tool-${system}`, version: '1.0.0', os: system, bin: { tool: 'tool' } };
    writeFileSync(join(place, 'package.json'), JSON.stringify(about));
    npm(place, 'pack', '--pack-destination', folder);
  }

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'brought-node-test-'));
    const systems = [process.platform, process.platform === 'aix' ? 'linux' : 'aix'];
    for (const system of systems) packTool(system);
    mkdirSync(site());
    cpSync(join(ROOT, '.npmrc'), join(site(), '.npmrc'));
    const wanted = systems.map((system) => [`tool-${system}`, `file:../tool-${system}-1.0.0.tgz`]);
    const about = { name: 'site', private: true, optionalDependencies: Object.fromEntries(wanted) };
    writeFileSync(join(site(), 'package.json'), JSON.stringify(about));
    npm(site(), 'install', '--package-lock-only');
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('links the program of this machine, whatever other machines have one of that name', () => {
    npm(site(), 'ci');
    // npm before 11 needs one more step, as README.md says
    const { stdout } = spawnSync('npm', ['--version'], { encoding: 'utf8' });
    if (Number.parseInt(stdout, 10) < 11) npm(site(), 'rebuild');
    expect(existsSync(join(site(), 'node_modules/.bin/tool'))).toBe(true);
  }, 60_000);
});
