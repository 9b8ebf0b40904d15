import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { InputProblem, readGradeArguments } from '../../src/cli/grade-arguments.ts';
import { type BenchOverrides, makeBenchFile } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';

const COMMAND = join(import.meta.dirname, '../../src/cli/grade.ts');
const folder = mkdtempSync(join(tmpdir(), 'grade-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Run = { code: number | null; out: string; err: string };

function run(words: readonly string[], input?: string | Buffer): Promise<Run> {
  const child = spawn(process.execPath, [COMMAND, ...words], { cwd: folder });
  let [out, err] = ['', ''];
  child.stdout.on('data', (chunk) => {
    out += chunk;
  });
  child.stderr.on('data', (chunk) => {
    err += chunk;
  });
  // the command may refuse and close before all of its input is written
  child.stdin.on('error', () => {});
  child.stdin.end(input ?? '');
  return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
}

const json = (overrides: BenchOverrides = {}): string => JSON.stringify(makeBenchFile(overrides));

function fileOf(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return name;
}

const KNIFE_INSIDE = json().replace('"along":2', '"along":-40');

/** Exit code 2, nothing on standard output, one line on standard error and no stack trace. */
function expectRefusal({ code, out, err }: Run, sentence: string | RegExp): void {
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toMatch(/^[^\n]+\n$/);
  expect(err).not.toMatch(/ {4}at |node:internal|\.ts:\d/);
  expect(err).toMatch(sentence);
}

describe('one bench', () => {
  test('that is fit: one JSON object, exit code 0, nothing on standard error', async () => {
    const { code, out, err } = await run([
      fileOf('sound.json', json()),
      '--limits',
      'gb',
      '--json',
    ]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out)).toMatchObject({ limits: 'gb', fit: true, faults: [] });
    expect(out.trim()).not.toContain('\n');
  });

  test('that is not fit: exit code 1', async () => {
    const file = fileOf('far.json', json(knifeAround(10)));
    const { code, out, err } = await run([file, '--limits', 'gb', '--json']);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(JSON.parse(out).faults).toEqual([
      { id: 'knife-too-far', part: 'knife', critical: true },
    ]);
  });

  test('in YAML, told by its content and not its name', async () => {
    const file = fileOf('bench.json', stringify(makeBenchFile()));
    expect((await run([file, '--limits', 'eu', '--json'])).code).toBe(0);
  });

  test('from standard input, JSON or YAML, with a byte order mark', async () => {
    expect((await run(['-', '--limits', 'gb', '--json'], `\uFEFF${json()}`)).code).toBe(0);
    expect((await run(['-', '--limits', 'gb', '--json'], stringify(makeBenchFile()))).code).toBe(0);
  });

  test('measured with uncertainty', async () => {
    const words = ['-', '--limits', 'gb', '--json', '--uncertainty', '0.5'];
    const { code, out } = await run(words, json(knifeAround(7.9)));
    const gap = JSON.parse(out).results.find(
      (one: { limit: string }) => one.limit === 'gb.knife.gap',
    );
    expect({ code, verdict: gap.verdict }).toEqual({ code: 1, verdict: 'too-close' });
  });

  test('against several sets', async () => {
    const { code, out } = await run(['-', '--limits', 'us-ca,gb', '--json'], json(knifeAround(10)));
    expect({ code, limits: JSON.parse(out).limits }).toEqual({ code: 1, limits: 'us-ca,gb' });
  });

  test('as a table, with the verdict, the source and the caution', async () => {
    const { code, out } = await run(['-', '--limits', 'gb'], json(knifeAround(10)));
    expect(code).toBe(1);
    expect(out).toMatch(/^NOT FIT TO RUN under Great Britain/);
    expect(out).toMatch(
      /OUTSIDE, stops the work +Gap from the teeth to the riving knife at the table +10 mm +at most 8 mm/,
    );
    expect(out).toContain('from memory, check before use');
    expect(out).toMatch(/STOP +Riving knife too far/);
    expect(out).toContain('It is not the law');
  });
});

describe('bad input gets one sentence and exit code 2', () => {
  const graded = ['-', '--limits', 'gb', '--json'];

  test.each([
    [
      'an unknown limit set',
      ['-', '--limits', 'mars'],
      '--limits must be one of: .*eu, gb.*practice.*no set named "mars"',
    ],
    ['no limit set', ['-'], '--limits must be given, as one of: .*gb'],
    ['no file', ['--limits', 'gb'], 'FILE must be given'],
    ['two files', ['a', 'b', '--limits', 'gb'], 'Only one FILE'],
    ['an unknown option', ['-', '--limits', 'gb', '--fast'], "Unknown option '--fast'"],
    [
      'an uncertainty that is no number',
      ['-', '--limits', 'gb', '--uncertainty', 'x'],
      '--uncertainty must be a number from 0 to 100 mm, not "x"',
    ],
    [
      'an uncertainty below zero',
      ['-', '--limits', 'gb', '--uncertainty=-1'],
      '--uncertainty must be a number from 0 to 100 mm',
    ],
  ])('%s', (_what, words, sentence) => {
    expect(() => readGradeArguments(words, ['eu', 'gb', 'practice', 'us-ca'])).toThrow(
      InputProblem,
    );
    expect(() => readGradeArguments(words, ['eu', 'gb', 'practice', 'us-ca'])).toThrow(
      new RegExp(sentence),
    );
  });

  test('an unknown limit set, at the terminal', async () => {
    expectRefusal(
      await run(['-', '--limits', 'mars']),
      /must be one of: .*there is no set named "mars"/,
    );
  });

  test('a file that is not there, and a folder', async () => {
    expectRefusal(await run(['nowhere.json', '--limits', 'gb']), /nowhere\.json is not there/);
    expectRefusal(await run(['.', '--limits', 'gb']), /is a folder, not a file/);
  });

  test.each([
    ['half a JSON file', '{"schema":', /The bench file is not valid JSON/],
    ['broken YAML', 'schema: [bench/1\nblade: x', /The bench file is not valid YAML/],
    ['nothing', ' \n', /The bench file is empty/],
    ['a list', '[1, 2]', /The bench file must be given, as a group of fields/],
    ['bytes that are no text', Buffer.from([0, 255, 254, 1, 2, 3]), /The bench file/],
    ['brackets without end', '['.repeat(200_000), /not valid JSON/],
    [
      'YAML nested too deeply',
      `a: ${'['.repeat(20_000)}`,
      /not valid YAML: it is nested too deeply/,
    ],
    ['a tower of YAML aliases', aliasTower(), /not valid YAML/],
    ['a knife inside the blade', KNIFE_INSIDE, /knife\.along must stand the knife behind/],
  ] as [string, string | Buffer, RegExp][])('%s', async (_what, input, sentence) => {
    expectRefusal(await run(graded, input), sentence);
  });

  test('impossible values, each named by its field', async () => {
    const cases: [string, string, RegExp][] = [
      [
        'a field that is wrong',
        json().replace('"kerf":4.2', '"kerf":"wide"'),
        /blade\.kerf must be a number from 0\.5 to 20 mm/,
      ],
      [
        'a blade of ten metres',
        json().replace('"diameter":400', '"diameter":10000'),
        /blade\.diameter must be a number from 50 to 2000 mm/,
      ],
      [
        'a number past all numbers',
        json().replace('"diameter":400', '"diameter":1e999'),
        /blade\.diameter must be a number/,
      ],
      [
        'a field nobody knows',
        json().replace('"fence":{', '"fence":{"colour":1,'),
        /fence has no field named colour/,
      ],
      [
        'a blade below its table',
        json().replace('"depth":110', '"depth":200'),
        /blade\.diameter must be more than twice arbor\.depth/,
      ],
      [
        'a knife inside the blade',
        KNIFE_INSIDE,
        /knife\.along must stand the knife behind the teeth/,
      ],
    ];
    const words = ['-', '--limits', 'gb', '--lines'];
    const { out } = await run(words, cases.map(([, text]) => text).join('\n'));
    const replies = out.trimEnd().split('\n');
    expect(replies).toHaveLength(cases.length);
    cases.forEach(([what, , sentence], i) => {
      expect(JSON.parse(replies[i] ?? '{}').error.message, what).toMatch(sentence);
    });
  });

  test('a file of 50 MB, and as much on standard input', async () => {
    const huge = Buffer.alloc(50_000_000, 32);
    writeFileSync(join(folder, 'huge.json'), huge);
    const sentence = /is too large \([\d.]+ MB or more\): a bench file is at most 1\.0 MB/;
    expectRefusal(await run(['huge.json', '--limits', 'gb']), sentence);
    expectRefusal(await run(graded, huge), sentence);
  });
});

/** Nine lists of nine aliases each: 9^9 items once expanded. */
function aliasTower(): string {
  const names = [...'abcdefghi'];
  return names
    .map((name, i) => {
      const below = names[i - 1];
      const items = Array.from({ length: 9 }, () => (below === undefined ? 'x' : `*${below}`));
      return `${name}: &${name} [${items.join(',')}]`;
    })
    .join('\n');
}

describe('--lines', () => {
  test('grades one bench on each line, bad lines included, and exits 0', async () => {
    const lines = [
      json(),
      '{"schema":',
      json(knifeAround(10)),
      '',
      json().replace('"teeth":36', '"teeth":1'),
    ];
    const { code, out, err } = await run(
      ['-', '--limits', 'gb', '--lines'],
      `${lines.join('\r\n')}\n`,
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const replies = out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(replies).toMatchObject([
      { limits: 'gb', fit: true },
      { error: { path: '', message: expect.stringMatching(/^The line is not valid JSON/) } },
      { limits: 'gb', fit: false },
      { error: { path: '', message: 'The line is empty.' } },
      {
        error: {
          path: 'blade.teeth',
          message: 'blade.teeth must be a whole number from 2 to 200.',
        },
      },
    ]);
  });

  test('takes the last line without a line break', async () => {
    const { out } = await run(['-', '--limits', 'gb', '--lines'], `${json()}\n${json()}`);
    expect(out.trimEnd().split('\n')).toHaveLength(2);
  });

  test('refuses a line longer than any bench and goes on', async () => {
    const input = `${'x'.repeat(3_000_000)}\n${json()}\n`;
    const { code, out } = await run(['-', '--limits', 'gb', '--lines'], input);
    const [first, second] = out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(code).toBe(0);
    expect(first.error.message).toBe('The line is too long to be a bench: at most 1 MB.');
    expect(second.fit).toBe(true);
  });

  test('of a file that is not there is bad input', async () => {
    expectRefusal(await run(['nowhere', '--limits', 'gb', '--lines']), /nowhere is not there/);
  });

  test('stops quietly when its reader has seen enough', async () => {
    const file = fileOf('many.jsonl', `${json()}\n`.repeat(400));
    const child = spawn(process.execPath, [COMMAND, file, '--limits', 'gb', '--lines'], {
      cwd: folder,
    });
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const code = await new Promise((done) => child.on('close', done));
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });
});

test('help names the limit sets', async () => {
  const { code, out } = await run(['--help']);
  expect(code).toBe(0);
  expect(out).toMatch(/Limit sets: .*gb/);
});
