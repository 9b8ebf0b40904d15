import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readVerifyArguments } from '../../src/cli/verify-arguments.ts';
import { openSiteKey, openStore } from '../../src/store/index.ts';
import { keepLog, sampleDrafts, sampleProof, seedKey } from './sample-log.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'signed-to-saw-'));
const { file, issuer } = await sampleProof();
const proof = join(folder, 'proof.json');

function run(command: 'verify' | 'audit', words: readonly string[], input = '') {
  const { INIT_CWD, ...env } = process.env;
  const done = spawnSync(process.execPath, [`src/cli/${command}.ts`, ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    env,
    input,
  });
  return { code: done.status, out: done.stdout, problem: done.stderr };
}

const save = (name: string, content: string): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

beforeAll(() => save('proof.json', JSON.stringify(file, null, 2)));

describe('npm run verify', () => {
  it('says genuine with a sentence for every check, and ends with 0', () => {
    const { code, out, problem } = run('verify', [proof, '--trust', issuer, '--at', '2026-03-10']);
    expect({ code, problem }).toEqual({ code: 0, problem: '' });
    expect(out.match(/^ {2}ok /gm)).toHaveLength(12);
    expect(out).toContain('Genuine. ');
    expect(out).toContain('Mira Holt: rip on AL-01');
    expect(out).toContain('A log held by one party alone cannot stop that party from rewriting it');
  });

  it('reads the signers to trust from a file, and the proof from standard input', () => {
    const list = save('trust.txt', `# told to us by telephone\n\n${issuer}\n`);
    const { code } = run(
      'verify',
      ['-', '--trust-file', list, '--at', '2026-03-10'],
      JSON.stringify(file),
    );
    expect(code).toBe(0);
  });

  it('trusts nobody unless told to, and says how to tell it', () => {
    const { code, out } = run('verify', [proof]);
    expect(code).toBe(1);
    expect(out).toContain('Not from a trusted signer.');
    expect(out).toContain('--trust did:key:');
    expect(out).not.toContain('Mira Holt');
  });

  it.each([
    ['altered', '2026-03-10', (text: string) => text.replace('redwood', 'mahogany')],
    ['ended', '2028-01-01', (text: string) => text],
    ['unknown as of a date', '2026-06-01', (text: string) => text],
  ])('says %s, and ends with 1', (verdict, at, bend) => {
    const { code, out } = run(
      'verify',
      ['-', '--trust', issuer, '--at', at, '--json'],
      bend(JSON.stringify(file)),
    );
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ verdict });
  });

  it.each<[string, string[], string, string]>([
    ['a file that is not there', ['/nowhere/proof.json'], '', '/nowhere/proof.json is not there.'],
    ['a folder', [folder], '', 'is a folder, not a file.'],
    ['text that is no JSON', ['-'], 'not json', 'Standard input must be JSON.'],
    [
      'JSON that is no proof',
      ['-'],
      '{"format":"x"}',
      'Standard input: format must be "signed-to-saw/proof/1" or "signed-to-saw/authorisation-proof/1".',
    ],
    [
      'JSON that is no object',
      ['-'],
      '[]',
      'Standard input: The file must be a proof file, one JSON object.',
    ],
    ['an option nobody knows', [proof, '--force'], '', "Unknown option '--force'"],
  ])('answers %s with one line and 2', (_, words, input, message) => {
    const { code, out, problem } = run('verify', words, input);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(problem).toContain(message);
    expect(problem.trim().split('\n')).toHaveLength(1);
  });

  it.each<[string, string[], string]>([
    ['no file', [], 'FILE must be given. Usage:'],
    ['two files', ['a', 'b'], 'Only one FILE can be checked at a time; "b" is one too many.'],
    [
      'a signer that is no key',
      ['a', '--trust', 'did:key:z6'],
      'must be the did:key of an Ed25519 key',
    ],
    [
      'a date that is none',
      ['a', '--at', 'tomorrow'],
      '--at must be a date such as 2026-03-03, not "tomorrow".',
    ],
  ])('refuses %s', async (_, words, message) => {
    await expect(readVerifyArguments(words, new Date(0))).rejects.toThrow(message);
  });

  it('asks about now, or about noon of the day given', async () => {
    const at = async (...words: string[]) => {
      const read = await readVerifyArguments(['a', ...words], new Date(0));
      return read === 'help' ? read : read.at;
    };
    expect(await at()).toBe('1970-01-01T00:00:00.000Z');
    expect(await at('--at', '2026-03-10')).toBe('2026-03-10T12:00:00.000Z');
    expect(await at('--at', '2026-03-10T08:00:00.000Z')).toBe('2026-03-10T08:00:00.000Z');
    expect(await at('--help')).toBe('help');
  });

  it('names the line of a list of signers that is wrong', () => {
    const list = save('bad-trust.txt', `${issuer}\ndid:web:alderlane.example\n`);
    expect(run('verify', [proof, '--trust-file', list]).problem).toContain(
      'bad-trust.txt, line 2: ',
    );
  });

  it('does not let a file steer the terminal', async () => {
    const { file: sly } = await sampleProof({
      input: { organisation: 'Alder\u001b[2JLane\u202e' },
    });
    const { code, out } = run(
      'verify',
      ['-', '--trust', issuer, '--at', '2026-03-10'],
      JSON.stringify(sly),
    );
    expect(code).toBe(0);
    expect(out).toContain('Alder?[2JLane?');
  });
});

describe('npm run audit', () => {
  const data = mkdtempSync(join(tmpdir(), 'signed-to-saw-data-'));
  const storeFile = join(data, 'store.sqlite');
  let early = '';

  beforeAll(async () => {
    const siteKey = await openSiteKey(join(data, 'site-key.json'), storeFile);
    const store = await openStore({ file: storeFile }, siteKey);
    const { drafts } = await sampleDrafts(await seedKey(2));
    for (const [index, draft] of drafts.entries()) {
      await store.append(draft);
      if (index === 3) early = await store.checkpoint();
    }
    await store.close();
    expect(keepLog(drafts).entries).toHaveLength(7);
  });

  it('finds a store whole, against a checkpoint kept elsewhere too', () => {
    const kept = save('kept.txt', early);
    const { code, out, problem } = run('audit', ['--data', data, '--checkpoint', kept]);
    expect({ code, problem }).toEqual({ code: 0, problem: '' });
    expect(out).toContain('The first 4 events are those of the checkpoint at 4.');
    expect(out).toContain('The log is whole.');
  });

  it('says that a log checked against itself alone proves little', () => {
    const { code, out } = run('audit', ['--data', data, '--hashes']);
    expect(code).toBe(0);
    expect(out).toContain('could have rewritten');
  });

  it('names the first event that was changed, and ends with 1', () => {
    const database = new DatabaseSync(storeFile);
    database.exec('drop trigger event_refuses_update');
    database.exec(`update event set json = replace(json, '"trainee"', '"trainer"') where seq = 2`);
    database.close();
    const { code, out } = run('audit', ['--data', data]);
    expect(code).toBe(1);
    expect(out).toContain('First bad event: number 2. It was altered after it was entered.');
    expect(out).toContain('The log is NOT whole.');
  });

  it.each<[string, string[], string]>([
    ['a folder with no store', ['--data', folder], 'holds no store; name its folder with --data.'],
    [
      'a checkpoint that is not there',
      ['--data', data, '--checkpoint', '/nowhere'],
      '/nowhere is not there.',
    ],
    ['an option nobody knows', ['--fix'], "Unknown option '--fix'"],
  ])('answers %s with one line and 2', (_, words, message) => {
    const { code, problem } = run('audit', words);
    expect(code).toBe(2);
    expect(problem).toContain(message);
    expect(problem.trim().split('\n')).toHaveLength(1);
  });

  afterAll(async () => {
    const { rm } = await import('node:fs/promises');
    await Promise.all([data, folder].map((path) => rm(path, { recursive: true, force: true })));
  });
});
