import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSettings, readWatchSettings } from '../../src/server/index.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const FILE = join(ROOT, 'src/deploy/signed-to-saw.service');
const text = readFileSync(FILE, 'utf8');
const values = (name: string): string[] =>
  [...text.matchAll(new RegExp(`^${name}=(.*)$`, 'gm'))].map(([, value]) => value ?? '');
const environment = Object.fromEntries(
  (values('Environment')[0] ?? '').split(' ').map((pair) => pair.split('=') as [string, string]),
);
const hasAnalyze = spawnSync('systemd-analyze', ['--version']).status === 0;

describe('the service file', () => {
  it('starts what is there, with settings the site takes', () => {
    const [program = '', script = '', ...rest] = (values('ExecStart')[0] ?? '').split(' ');
    expect(program).toBe(`${values('WorkingDirectory')[0]}/node_modules/.bin/node`);
    expect(existsSync(join(ROOT, script))).toBe(true);
    expect(rest).toEqual(['--built']);
    expect(readSettings(environment).ok).toBe(true);
    expect(environment['DATA_DIR']).toBe(`/var/lib/${values('StateDirectory')[0]}`);
    expect(text).not.toMatch(/TOKEN|PASSWORD|DATABASE_URL/);
  });

  it('gives running requests the time the site gives them', () => {
    const read = readWatchSettings(environment, { terminal: false });
    const grace = read.ok ? read.settings.stopGraceMs : Number.POSITIVE_INFINITY;
    expect(Number(values('TimeoutStopSec')[0]) * 1_000).toBeGreaterThan(grace);
    expect(values('KillSignal')).toEqual(['SIGTERM']);
    expect(values('Restart')).toEqual(['on-failure']);
  });

  it('holds it in a room of its own', () => {
    for (const [name, value] of [
      ['DynamicUser', 'yes'],
      ['ProtectSystem', 'strict'],
      ['NoNewPrivileges', 'yes'],
      ['CapabilityBoundingSet', ''],
    ] as const) {
      expect(values(name), name).toEqual([value]);
    }
    expect(values('SystemCallFilter')[0]).toBe('@system-service');
    expect(values('MemoryMax')[0]).toMatch(/^\d+[MG]$/);
  });

  it.skipIf(!hasAnalyze)('is read by systemd without a word, and exposes little', () => {
    const place = mkdtempSync(join(tmpdir(), 'service-test-'));
    const copy = join(place, 'signed-to-saw.service');
    // the site does not lie in /opt here
    const here = text
      .replaceAll('/opt/signed-to-saw/node_modules/.bin/node', process.execPath)
      .replaceAll('/opt/signed-to-saw', ROOT);
    writeFileSync(copy, here);
    const verified = spawnSync('systemd-analyze', ['verify', copy], { encoding: 'utf8' });
    expect(verified.stderr).toBe('');
    expect(verified.status).toBe(0);
    const report = execFileSync('systemd-analyze', ['security', '--offline=true', copy], {
      encoding: 'utf8',
    });
    rmSync(place, { recursive: true });
    const [, exposure] = /Overall exposure level for \S+: ([\d.]+)/.exec(report) ?? [];
    // 0 is none at all; below 2 systemd calls it OK
    expect(Number(exposure)).toBeLessThan(2);
  });
});
