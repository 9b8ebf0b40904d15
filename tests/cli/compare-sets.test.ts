import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { makeBenchFile } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';

const folder = mkdtempSync(join(tmpdir(), 'compare-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Run = { code: number | null; out: string; err: string };

function run(
  command: 'grade' | 'choose-blade',
  words: readonly string[],
  input = '',
): Promise<Run> {
  const file = join(import.meta.dirname, `../../src/cli/${command}.ts`);
  const child = spawn(process.execPath, [file, ...words], {
    cwd: folder,
    env: { ...process.env, DATA_DIR: join(folder, 'data'), INIT_CWD: folder },
  });
  let [out, err] = ['', ''];
  child.stdout.on('data', (chunk) => {
    out += chunk;
  });
  child.stderr.on('data', (chunk) => {
    err += chunk;
  });
  child.stdin.on('error', () => {});
  child.stdin.end(input);
  return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
}

const own = (id: string, max: number) =>
  stringify({
    schema: 'limits/1',
    id,
    version: 1,
    title: 'Workshop rules',
    edition: 'Agreed in the workshop',
    caution: 'Not the law.',
    basis: 'own',
    extends: 'us-ca',
    documents: { rules: { title: 'Workshop rules', year: 2026 } },
    changes: [
      { limit: 'us-ca.knife.gap', max, unit: 'mm', source: { document: 'rules', seen: 'primary' } },
    ],
  });
writeFileSync(join(folder, 'rules.yaml'), own('alder', 9));
writeFileSync(join(folder, 'loose.yaml'), own('loose', 13));
mkdirSync(join(folder, 'data/limits'), { recursive: true });
writeFileSync(join(folder, 'data/limits/ours.yaml'), own('ours', 9));
writeFileSync(join(folder, 'data/limits/slack.yaml'), own('slack', 13));

const bench = JSON.stringify(makeBenchFile(knifeAround(10)));

describe('grading one bench under several sets', () => {
  test('shows side by side where the verdict flips, by which figure and whose', async () => {
    const { code, out, err } = await run('grade', ['-', '--limits', 'gb,us-ca,hk'], bench);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toMatch(
      /^SAME BENCH, OTHER RULES\n {2}gb +NOT FIT TO RUN +score [\d.]+ +Great Britain/,
    );
    expect(out).toMatch(/Where the verdict flips:\nGap from the teeth to the riving knife\n/);
    expect(out).toMatch(
      / {2}gb +OUTSIDE, stops the work +10 mm +at most 8 mm +HSE, circular saw bench/,
    );
    expect(out).toMatch(
      / {2}us-ca +within +10 mm +at most 12\.7 mm +California Code of Regulations/,
    );
    expect(out).toMatch(/ {2}hk +within +10 mm +at most 15 mm +Cap\. 59G/);
    expect(out).toMatch(
      /Found wrong under some only:\n {2}Riving knife too far from the teeth +gb/,
    );
    expect(out).toContain('NOT FIT TO RUN under Great Britain + California (Title 8) + Hong Kong');
  });

  test('says so where none flips', async () => {
    const { code, out } = await run(
      'grade',
      ['-', '--limits', 'gb,eu'],
      JSON.stringify(makeBenchFile()),
    );
    expect(code).toBe(0);
    expect(out).toContain('No verdict flips between these sets.');
  });

  test('adds sets and flips to the JSON, and changes nothing else in it', async () => {
    const { out } = await run('grade', ['-', '--limits', 'gb,us-ca', '--json'], bench);
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual([
      'limits',
      'fit',
      'score',
      'measures',
      'results',
      'faults',
      'sets',
      'flips',
    ]);
    expect(report.sets.map(({ id, fit }: { id: string; fit: boolean }) => [id, fit])).toEqual([
      ['gb', false],
      ['us-ca', true],
    ]);
    expect(report.flips[0].verdicts).toEqual({ gb: 'outside', 'us-ca': 'within' });
    const one = await run('grade', ['-', '--limits', 'gb', '--json'], bench);
    expect(Object.keys(JSON.parse(one.out))).toHaveLength(6);
  });

  test('names the instrument that would settle what is too close to call', async () => {
    const near = JSON.stringify(makeBenchFile(knifeAround(7.7)));
    const { out } = await run('grade', ['-', '--limits', 'gb', '--uncertainty', '0.5'], near);
    expect(out).toMatch(
      /Too close to call:\n.* {2}Gap from the teeth to the riving knife at the table: Feeler leaves \(0\.05 mm either way\) would settle it\./s,
    );
  });
});

describe("an organisation's own set", () => {
  test('is given by its path, and tightens the one it extends', async () => {
    const { code, out } = await run(
      'grade',
      ['-', '--limits', 'us-ca,rules.yaml', '--json'],
      bench,
    );
    const report = JSON.parse(out);
    expect(code).toBe(1);
    expect(report.limits).toBe('us-ca,alder');
    expect(report.flips[0].verdicts).toEqual({ 'us-ca': 'within', alder: 'outside' });
    expect(
      report.results.find(({ limit }: { limit: string }) => limit === 'alder.knife.gap').source,
    ).toEqual({
      document: 'Workshop rules',
      clause: null,
      year: 2026,
      seen: 'primary',
    });
  });

  test('in the data folder is known by its id', async () => {
    const { code, out } = await run('grade', ['-', '--limits', 'ours', '--json'], bench);
    expect({ code, limits: JSON.parse(out).limits }).toEqual({ code: 1, limits: 'ours' });
  });

  test.each<[string, RegExp]>([
    [
      './loose.yaml',
      /^loose\.yaml, line \d+: changes\[0\]\.max must be at most 12\.7 mm, to be as strict as us-ca\.knife\.gap\.\n$/,
    ],
    [
      'slack',
      /slack\.yaml, line \d+: changes\[0\]\.max must be at most 12\.7 mm, to be as strict as us-ca\.knife\.gap\.\n$/,
    ],
    ['nowhere.yaml', /^nowhere\.yaml cannot be read\.\n$/],
    ['nobody', /there is no set named "nobody"\.\n$/],
  ])('%s is refused in one sentence', async (name, sentence) => {
    const { code, out, err } = await run('grade', ['-', '--limits', name], bench);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
  });
});

describe('choosing a blade at the terminal', () => {
  const words = ['-', '--rack', 'alder-lane', '--limits', 'gb'];

  test('ranks the rack with reasons, and exits 0 when one fits', async () => {
    const { code, out } = await run('choose-blade', words, bench);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^1\. Ripping blade 350 \(rip-350-28\), score \d+ of 100, with Knife 2\.8 for 350 mm blades\n {5}marked for 4800 rpm/,
    );
    expect(out).toMatch(
      /- {2}Plate saw 18 inch \(plate-457-12g\): does not fit\n {5}larger than this bench/,
    );
    expect(out).toMatch(/common practice, and power rests on an assumed 30 N\/mm2/);
  });

  test('gives the same as JSON', async () => {
    const { out } = await run('choose-blade', [...words, '--json'], bench);
    expect(JSON.parse(out)[0]).toMatchObject({
      blade: 'rip-350-28',
      knife: 'knife-28',
      fits: true,
    });
  });

  test('exits 1 when none fits', async () => {
    const thick = JSON.stringify(makeBenchFile({ job: { stock: { thickness: 400 } } }));
    expect((await run('choose-blade', words, thick)).code).toBe(1);
  });

  test.each<[readonly string[], string, RegExp]>([
    [
      ['-', '--rack', 'mars', '--limits', 'gb'],
      bench,
      /--rack must be one of: alder-lane; there is none named "mars"\./,
    ],
    [['-', '--rack', 'alder-lane'], bench, /--limits must be one of: .*gb.*; it is missing\./],
    [['--rack', 'alder-lane', '--limits', 'gb'], bench, /One BENCH must be given/],
    [[...words, '--fast'], bench, /Unknown option '--fast'/],
    [words, 'blade: [', /The bench file is not valid JSON or YAML\./],
    [words, '{}', /The bench file: schema must be "bench\/1"\./],
  ])('%j is refused in one sentence', async (given, input, sentence) => {
    const { code, out, err } = await run('choose-blade', given, input);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+\n$/);
    expect(err).toMatch(sentence);
  });
});
