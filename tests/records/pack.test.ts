import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  type Bytes,
  checkPack,
  consistencyPath,
  describeFile,
  didOf,
  logOriginOf,
  type NodeLookup,
  nodeHash,
  type PackFacts,
  packIdOf,
  readZip,
  type SigningKey,
  signCheckpoint,
  signManifest,
  toBase64,
  utf8,
  writeZip,
} from '../../src/records/index.ts';
import { sampleLeave } from './sample-authorisation.ts';
import { keepLog, sampleDrafts, sampleProof, seedKey } from './sample-log.ts';

const MADE = '2026-03-03T12:00:00.000Z';
let site: SigningKey;
let issuer = '';
let facts: PackFacts;
let files: Map<string, Uint8Array>;
let pack: Uint8Array;

const json = (value: unknown) => utf8(JSON.stringify(value));

async function seal(content: ReadonlyMap<string, Uint8Array>, change: Partial<PackFacts> = {}) {
  const listed = [...content].map(([path, bytes]) => describeFile(path, bytes));
  const manifest = await signManifest({ ...facts, files: listed, ...change }, site);
  return new Map([...content, ['manifest.json', json(manifest)]]);
}

beforeAll(async () => {
  site = await seedKey(1);
  issuer = didOf(site.keyId);
  const { drafts } = await sampleDrafts(await seedKey(2));
  const [before, after] = [keepLog(drafts.slice(0, 3)), keepLog(drafts)];
  const origin = logOriginOf(site.keyId);
  const noteOf = (log: typeof after) =>
    signCheckpoint({ origin, size: log.entries.length, root: log.root }, site);
  const [earlier, newest] = await Promise.all([noteOf(before), noteOf(after)]);
  const leaves = after.entries.map(({ leafHash }) => leafHash);
  const lookup: NodeLookup = ({ level, index }) =>
    level === 0
      ? (leaves[index] as Bytes)
      : nodeHash(
          lookup({ level: level - 1, index: index * 2 }),
          lookup({ level: level - 1, index: index * 2 + 1 }),
        );
  facts = {
    made: MADE,
    asOf: '2026-03-03',
    organisation: 'Alder Lane Joinery',
    language: 'en',
    paper: 'a4',
    scope: { people: [], bench: null },
    log: { origin, size: after.entries.length, root: toBase64(after.root) },
    files: [],
  };
  files = new Map<string, Uint8Array>([
    ['READ-FIRST.txt', utf8('Read this first.\n')],
    ['checkpoints/newest.txt', utf8(newest)],
    [
      'checkpoints/consistency.json',
      json({
        format: 'signed-to-saw/consistency/1',
        earlier,
        newest,
        path: consistencyPath(3, leaves.length, lookup).map(toBase64),
      }),
    ],
    ['pack.pdf', utf8('%PDF-1.7 as it were')],
    ['proofs/authorisation-1.json', json((await sampleLeave()).file)],
    ['proofs/sign-off-1.json', json((await sampleProof()).file)],
  ]);
  pack = writeZip(await seal(files), '2026-03-03');
});

const ask = (content: ReadonlyMap<string, Uint8Array | null>, trusted = [issuer], at = null) =>
  checkPack(content as Parameters<typeof checkPack>[0], { trusted, at });
const open = (bytes: Uint8Array) => {
  const found = readZip(bytes);
  if (found === null) throw new Error('no zip');
  return found;
};
const wordsOf = (verdict: Awaited<ReturnType<typeof ask>>) =>
  Object.fromEntries(verdict.files.map((one) => [one.path, one.verdict]));

it('a whole pack is genuine, each file of it by name', async () => {
  const verdict = await ask(open(pack));
  expect(verdict.verdict).toBe('genuine');
  expect(Object.keys(wordsOf(verdict)).sort()).toEqual([...files.keys(), 'manifest.json'].sort());
  expect(new Set(Object.values(wordsOf(verdict)))).toEqual(new Set(['genuine']));
  expect(verdict.manifest?.id).toBe(
    packIdOf({ ...facts, files: verdict.manifest?.files ?? [] }, site.keyId),
  );
});

it('the same files make the same zip, whatever the time zone', () => {
  const again = `import('${resolve('src/records/index.ts')}').then(({writeZip}) => process.stdout.write(Buffer.from(writeZip(new Map([['a.txt', Buffer.from('saw')]]), '2026-03-29')).toString('hex')))`;
  const made = ['Pacific/Kiritimati', 'Europe/Berlin', 'America/St_Johns'].map(
    (TZ) =>
      spawnSync(process.execPath, ['-e', again], { env: { ...process.env, TZ }, encoding: 'utf8' })
        .stdout,
  );
  expect(made[0]).toMatch(/^504b0304/);
  expect(new Set(made).size).toBe(1);
});

it('a byte flipped in any file names that file and no other', async () => {
  const whole = await seal(files);
  for (const [path, bytes] of whole) {
    for (const place of [0, bytes.length >> 1, bytes.length - 1]) {
      const bent = new Uint8Array(bytes);
      bent[place] = (bent[place] ?? 0) ^ 1;
      const verdict = await ask(new Map([...whole, [path, bent]]));
      const altered = verdict.files.filter((one) => one.verdict === 'altered');
      expect([verdict.verdict, altered.map((one) => one.path)], path).toEqual(['altered', [path]]);
    }
  }
});

it('a byte flipped anywhere in the zip is told, or leaves every file as it was', async () => {
  const whole = open(pack);
  const isSame = (files: ReturnType<typeof open>) =>
    files.size === whole.size &&
    [...whole].every(([path, bytes]) => {
      const other = files.get(path);
      return other != null && bytes !== null && Buffer.compare(other, bytes) === 0;
    });
  await fc.assert(
    fc.asyncProperty(fc.nat(pack.length - 1), fc.integer({ min: 0, max: 7 }), async (at, bit) => {
      const bent = new Uint8Array(pack);
      bent[at] = (bent[at] ?? 0) ^ (1 << bit);
      const found = readZip(bent);
      if (found === null) return;
      expect((await ask(found)).verdict === 'genuine').toBe(isSame(found));
    }),
    { numRuns: 150 },
  );
});

it('a file taken out, put in or put in twice is named', async () => {
  const whole = await seal(files);
  const without = new Map(whole);
  without.delete('pack.pdf');
  const lost = await ask(without);
  expect(wordsOf(lost)['pack.pdf']).toBe('altered');
  const more = await ask(new Map([...whole, ['proofs/other.json', json({})]]));
  expect([more.verdict, wordsOf(more)['proofs/other.json']]).toEqual(['altered', 'altered']);
  const twice = await ask(new Map([...whole, ['pack.pdf', null]]));
  expect(wordsOf(twice)['pack.pdf']).toBe('altered');
});

it('a pack whose signer is not in the list says so of every file, and shows no manifest', async () => {
  const verdict = await ask(open(pack), []);
  expect(verdict.verdict).toBe('not from a trusted signer');
  expect(new Set(Object.values(wordsOf(verdict)))).toEqual(new Set(['not from a trusted signer']));
  expect(verdict.manifest).toBeNull();
});

it('a manifest signed anew by somebody else is not this signer', async () => {
  const other = await seedKey(7);
  const listed = [...files].map(([path, bytes]) => describeFile(path, bytes));
  const manifest = await signManifest({ ...facts, files: listed }, other);
  const verdict = await ask(new Map([...files, ['manifest.json', json(manifest)]]));
  expect(verdict.verdict).not.toBe('genuine');
  const lie = { ...manifest, issuer };
  expect((await ask(new Map([...files, ['manifest.json', json(lie)]]))).verdict).toBe('altered');
});

it('what the site signed and does not hold is told all the same: checkpoint, consistency, proofs', async () => {
  const wrong = (path: string, bytes: Uint8Array) => seal(new Map([...files, [path, bytes]]));
  const text = new TextDecoder().decode(files.get('checkpoints/consistency.json'));
  const bent = utf8(text.replace(/"path":\["./, '"path":["_'));
  const cases: [string, Uint8Array][] = [
    ['checkpoints/newest.txt', utf8('signed-to-saw/log/x\n1\nAAAA\n\n')],
    ['checkpoints/consistency.json', bent],
    ['proofs/sign-off-1.json', utf8('{}')],
  ];
  for (const [path, bytes] of cases) {
    expect(wordsOf(await ask(await wrong(path, bytes)))[path], path).toBe('altered');
  }
});

it('asks about the moment it was made unless told otherwise', async () => {
  const whole = open(pack);
  expect((await ask(whole)).at).toBe(MADE);
  const later = await checkPack(whole, { trusted: [issuer], at: '2029-01-01T00:00:00.000Z' });
  expect(later.verdict).toBe('ended');
});

const folder = mkdtempSync(join(tmpdir(), 'signed-to-saw-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('the command says one word for each file and for the whole, and ends with 0 or 1', () => {
  const path = join(folder, 'pack.zip');
  writeFileSync(path, pack);
  const run = (...words: string[]) =>
    spawnSync(process.execPath, ['src/cli/verify.ts', path, ...words], { encoding: 'utf8' });
  const good = run('--trust', issuer);
  expect([good.status, good.stderr]).toEqual([0, '']);
  expect(good.stdout).toMatch(/^ {2}genuine +manifest\.json/m);
  expect(good.stdout).toContain('Genuine. Every file is as it was signed');
  const stranger = run();
  expect(stranger.status).toBe(1);
  expect(stranger.stdout).toContain('--trust did:key:');
  const bent = new Uint8Array(pack);
  bent[60] = (bent[60] ?? 0) ^ 1; // inside READ-FIRST.txt
  writeFileSync(path, bent);
  const bad = run('--trust', issuer);
  expect(bad.status).toBe(1);
  expect(bad.stdout).toMatch(/^ {2}altered +READ-FIRST\.txt/m);
  writeFileSync(path, pack.slice(0, 100));
  expect(run().status).toBe(2);
});
