import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MadePack } from '../../src/pages/_pack/make-pack.ts';
import {
  checkPack,
  didOf,
  generateSigningKey,
  type PackManifest,
  readZip,
  sha256,
  signManifest,
  toHex,
  type Unpacked,
  writeZip,
} from '../../src/records/index.ts';
import { makeStagePack } from './make.ts';
import { openPackStage, type PackStage } from './stage.ts';

let stage: PackStage;
let now: string;
let pack: MadePack;
let again: MadePack;
let leave: string;

beforeAll(async () => {
  stage = await openPackStage();
  leave = await stage.authorise('Mira Holt');
  now = new Date().toISOString();
  pack = await makeStagePack(stage, now);
  again = await makeStagePack(stage, now);
}, 60_000);
afterAll(() => stage.close());

const signer = () => didOf(stage.site.siteKey.keyId);
const trusting = () => ({ trusted: [signer()], at: null });

const filesOf = (zip: Uint8Array): Map<string, Uint8Array<ArrayBuffer>> => {
  const files = readZip(zip);
  if (files === null) throw new Error('the pack is no zip');
  return new Map(
    [...files].map(([path, bytes]) => {
      if (bytes === null) throw new Error(`${path} cannot be unpacked`);
      return [path, bytes];
    }),
  );
};

const manifestOf = (files: Unpacked): PackManifest =>
  JSON.parse(new TextDecoder().decode(files.get('manifest.json') ?? new Uint8Array()));

const bent = (bytes: Uint8Array): Uint8Array<ArrayBuffer> => {
  const copy = new Uint8Array(bytes);
  const middle = Math.floor(copy.length / 2);
  copy[middle] = (copy[middle] ?? 0) ^ 1;
  return copy;
};

describe('a pack made twice of the same log at the same instant', () => {
  it('has the same PDF, byte for byte', () => {
    expect(Buffer.compare(pack.pdf, again.pdf)).toBe(0);
  });

  it('has the same zip, byte for byte', () => {
    expect(Buffer.compare(pack.zip, again.zip)).toBe(0);
    expect(again.id).toBe(pack.id);
  });

  it('has the same zip in another time zone', () => {
    const zone = process.env.TZ;
    const files = filesOf(pack.zip);
    try {
      process.env.TZ = 'Pacific/Kiritimati';
      expect(Buffer.compare(writeZip(files, now.slice(0, 10)), pack.zip)).toBe(0);
    } finally {
      if (zone === undefined) delete process.env.TZ;
      else process.env.TZ = zone;
    }
  });
});

describe('the zip of a pack', () => {
  it('is genuine to somebody who trusts the site, and so is each file in it', async () => {
    const files = filesOf(pack.zip);
    const { files: found, manifest, verdict } = await checkPack(files, trusting());
    expect(verdict).toBe('genuine');
    expect(found.filter((one) => one.verdict !== 'genuine')).toEqual([]);
    expect(found.map(({ path }) => path).sort()).toEqual([...files.keys()].sort());
    expect(manifest?.id).toBe(pack.id);
  });

  it('holds the printed document, and a proof and a sheet of every record', () => {
    const files = filesOf(pack.zip);
    expect(Buffer.compare(files.get('pack.pdf') ?? new Uint8Array(), pack.pdf)).toBe(0);
    const paths = [...files.keys()];
    const inFolder = (folder: string) => paths.filter((path) => path.startsWith(folder));
    expect(inFolder('proofs/authorisation-')).toEqual([`proofs/authorisation-${leave}.json`]);
    expect(inFolder('proofs/sign-off-')).toHaveLength(7);
    expect(inFolder('sheets/')).toHaveLength(7);
    expect(files.has('READ-FIRST.txt') && files.has('verifier.html')).toBe(true);
  });

  it('holds no e-mail address of anybody', () => {
    for (const [path, bytes] of filesOf(pack.zip)) {
      expect(new TextDecoder().decode(bytes).includes('@alderlane'), path).toBe(false);
    }
  });

  it('is from nobody trusted to somebody who trusts another key', async () => {
    const trusted = [didOf((await generateSigningKey({ keep: 'on-device' })).keyId)];
    const { manifest, verdict } = await checkPack(filesOf(pack.zip), { trusted, at: null });
    expect(verdict).toBe('not from a trusted signer');
    expect(manifest).toBeNull();
  });

  it('names each file in which one bit was changed', async () => {
    const files = filesOf(pack.zip);
    const { files: listed } = manifestOf(files);
    expect(listed.length).toBeGreaterThan(25);
    for (const { path } of listed) {
      const changed = new Map(files).set(path, bent(files.get(path) ?? new Uint8Array()));
      const { files: found, verdict } = await checkPack(changed, trusting());
      expect(verdict, path).toBe('altered');
      const altered = found.filter((one) => one.verdict === 'altered');
      expect(altered.map((one) => one.path)).toEqual([path]);
    }
  }, 30_000);

  it('names a file that was taken out, and one that was put in', async () => {
    const files = filesOf(pack.zip);
    const one = `proofs/authorisation-${leave}.json`;
    files.delete(one);
    files.set('proofs/more.json', new Uint8Array([123, 125]));
    const { files: found, verdict } = await checkPack(files, trusting());
    expect(verdict).toBe('altered');
    const altered = found.filter(({ verdict: word }) => word === 'altered');
    expect(altered.map(({ path }) => path).sort()).toEqual([one, 'proofs/more.json'].sort());
  });

  it('is altered when the manifest is, in any of what it says', async () => {
    const files = filesOf(pack.zip);
    const manifest = manifestOf(files);
    const changes: Partial<PackManifest>[] = [
      { organisation: 'Another Joinery' },
      { asOf: '2020-01-01' },
      { made: '2020-01-01T00:00:00.000Z' },
      { log: { ...manifest.log, size: manifest.log.size - 1 } },
      { files: manifest.files.slice(1) },
      { scope: { people: [leave], bench: null } },
    ];
    for (const change of changes) {
      const text = JSON.stringify({ ...manifest, ...change });
      const changed = new Map(files).set('manifest.json', new TextEncoder().encode(text));
      const { files: found, verdict } = await checkPack(changed, trusting());
      expect(verdict, text.slice(0, 300)).toBe('altered');
      expect(found[0]?.path).toBe('manifest.json');
    }
  });

  it('does not hold when somebody else signs the manifest of changed files', async () => {
    const files = filesOf(pack.zip);
    const { format, id, issuer, proof, ...facts } = manifestOf(files);
    const path = 'register.csv';
    const changed = bent(files.get(path) ?? new Uint8Array());
    const other = await generateSigningKey({ keep: 'on-device' });
    const lines = facts.files.map((one) =>
      one.path === path ? { ...one, sha256: toHex(sha256(changed)) } : one,
    );
    const forged = await signManifest({ ...facts, files: lines }, other);
    files.set(path, changed);
    files.set('manifest.json', new TextEncoder().encode(JSON.stringify(forged)));
    expect((await checkPack(files, trusting())).verdict).not.toBe('genuine');
  });

  it('is checked by the command, which needs nothing of the site', () => {
    const folder = mkdtempSync(join(tmpdir(), 'signed-pack-'));
    try {
      const check = (bytes: Uint8Array) => {
        const file = join(folder, 'pack.zip');
        writeFileSync(file, bytes);
        const words = ['src/cli/run.mjs', 'verify', file, '--trust', signer()];
        return spawnSync(process.execPath, words, { encoding: 'utf8' });
      };
      const whole = check(pack.zip);
      expect(whole.stderr).toBe('');
      expect(whole.stdout).toContain('Genuine. Every file is as it was signed');
      expect(whole.status).toBe(0);
      const files = filesOf(pack.zip);
      files.set('pack.pdf', bent(pack.pdf));
      const changed = check(writeZip(files, now.slice(0, 10)));
      expect(changed.stdout).toMatch(/altered +pack\.pdf/);
      expect(changed.status).toBe(1);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 30_000);
});

describe('a pack for one who may do nothing', () => {
  it('holds no record of anybody else', async () => {
    const { person } = stage.person('Jess Lindqvist');
    const { content, zip } = await makeStagePack(stage, now, { people: [person] });
    expect(content.people.map(({ name }) => name)).toEqual(['Jess Lindqvist']);
    const paths = [...filesOf(zip).keys()];
    expect(paths.filter((path) => /^(proofs|sheets)\//.test(path))).toEqual([]);
    for (const [path, bytes] of filesOf(zip)) {
      expect(new TextDecoder().decode(bytes).includes('Mira Holt'), path).toBe(false);
    }
  });
});
