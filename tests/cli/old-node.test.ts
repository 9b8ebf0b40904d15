import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const PRETEND = `Object.defineProperty(process,'versions',{value:{...process.versions,node:'20.19.0'}})`;
const TOLD = 'console.log(process.versions.node, process.argv.slice(2)); process.exitCode = 3;';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'old-node-test-'));
  mkdirSync(join(folder, 'src/cli'), { recursive: true });
  cpSync(join(ROOT, 'src/cli/run.mjs'), join(folder, 'src/cli/run.mjs'));
  writeFileSync(join(folder, 'src/cli/tell.ts'), TOLD);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const OLD = ['--import', `data:text/javascript,${PRETEND}`, 'src/cli/run.mjs'];

/** `run.mjs tell one --two` by a Node that calls itself 20. */
const run = () =>
  spawnSync(process.execPath, [...OLD, 'tell', 'one', '--two'], { cwd: folder, encoding: 'utf8' });

function bringNode(): void {
  const bin = join(folder, `node_modules/node-${process.platform}-${process.arch}/bin`);
  mkdirSync(bin, { recursive: true });
  symlinkSync(process.execPath, join(bin, 'node'));
}

describe('a command run by an old Node', () => {
  it('says which one it needs', () => {
    const { status, stderr } = run();
    expect(stderr).toMatch(/^This site needs Node 24 and this is Node 20\.19\.0; run npm ci/);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(status).toBe(1);
  });

  // without its link: npm 9 and 10 take that away, tests/deploy/brought-node.test.ts
  it.skipIf(process.platform === 'win32')('hands over to the Node that npm ci brought', () => {
    bringNode();
    const { status, stdout, stderr } = run();
    expect(stderr).toBe('');
    expect(stdout.trim()).toBe(`${process.versions.node} [ 'one', '--two' ]`);
    expect(status).toBe(3);
  });

  it.skipIf(process.platform === 'win32')('passes on that it is to stop', async () => {
    bringNode();
    const wait = `setInterval(() => {}, 1_000); process.on('SIGTERM', () => process.exit(7)); console.log('up');`;
    writeFileSync(join(folder, 'src/cli/wait.ts'), wait);
    const child = spawn(process.execPath, [...OLD, 'wait'], { cwd: folder });
    await once(child.stdout, 'data');
    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([7, null]);
  });
});
