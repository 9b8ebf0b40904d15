import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { findChromium } from './helpers/find-chromium.ts';
import { hasPostgres, NO_POSTGRES, startCluster } from './helpers/postgres.ts';

/**
 * `npm test`: format and lint, types, the content, unit tests and oracles, the build, and a real browser.
 * Every step runs even when one before it failed; the last line counts them all. Steps that fill one core run beside each
 * other.
 */
const ROOT = resolve(import.meta.dirname, '..');
const REPORTS = resolve(ROOT, 'test-results/reports');

type BrowserStats = { expected: number; flaky: number; unexpected: number };
type Count = { passed: number; failed: number };
type Step = { title: string; run: (show: Show) => Promise<Count> };
/** Takes what a command prints, as it comes. */
type Show = (text: string | Uint8Array) => void;

const running = new Set<ChildProcess>();

/** Runs a command to its end and tells whether it ended well. */
function runCommand(
  show: Show,
  command: string,
  args: string[],
  env: Record<string, string> = {},
): Promise<boolean> {
  const child = spawn(command, args, {
    cwd: ROOT,
    stdio: ['inherit', 'pipe', 'pipe'],
    shell: process.platform === 'win32',
    env: { ...process.env, ...env },
  });
  running.add(child);
  child.once('close', () => running.delete(child));
  for (const stream of [child.stdout, child.stderr]) stream.on('data', show);
  return new Promise((done) => {
    child.once('error', (error) => {
      show(`${error.message}\n`);
      done(false);
    });
    child.once('close', (code) => done(code === 0));
  });
}

/** A step that either passes or fails as a whole. */
const whole = (title: string, ...commands: [string, ...string[]][]): Step => ({
  title,
  run: async (show) => {
    let passed = true;
    for (const [command, ...args] of commands) passed &&= await runCommand(show, command, args);
    return { passed: passed ? 1 : 0, failed: passed ? 0 : 1 };
  },
});

const readReport = (file: string): unknown =>
  existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;

async function unitTests(show: Show): Promise<Count> {
  const report = resolve(REPORTS, 'unit.json');
  const passed = await runCommand(show, 'npx', [
    'vitest',
    'run',
    '--config',
    'tests/vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  const result = readReport(report) as { numPassedTests: number; numFailedTests: number } | null;
  if (result === null) return { passed: 0, failed: 1 };
  // a file that cannot be loaded fails without any test in it failing
  const failed = passed ? result.numFailedTests : Math.max(1, result.numFailedTests);
  return { passed: result.numPassedTests, failed };
}

async function browserTests(show: Show): Promise<Count> {
  if (
    findChromium() === undefined &&
    !(await runCommand(show, 'npx', ['playwright', 'install', 'chromium']))
  ) {
    show('No Chromium was found, and none could be installed. Install Chromium and run again.\n');
    return { passed: 0, failed: 1 };
  }
  const report = resolve(REPORTS, 'browser.json');
  const passed = await runCommand(
    show,
    'npx',
    ['playwright', 'test', '--config', 'tests/playwright.config.ts'],
    {
      TEST_REPORT: report,
    },
  );
  const result = readReport(report) as { stats: BrowserStats } | null;
  if (result === null) return { passed: 0, failed: 1 };
  const { expected, flaky, unexpected } = result.stats;
  if (flaky > 0) show(`${flaky} passed only when tried again; see the names above\n`);
  return { passed: expected + flaky, failed: passed ? unexpected : Math.max(1, unexpected) };
}

/** Lanes run beside each other, the steps of a lane one after another. What both need of Astro is made before them. */
const FIRST: Step = whole('Types of the content', ['npx', 'astro', 'sync']);
const BUILD: Step[] = [
  whole('Build', ['node', 'src/cli/build.ts']),
  whole('Content', ['node', 'src/cli/run.mjs', 'content']),
  whole('Format and lint', ['npx', 'biome', 'ci', '--error-on-warnings', '.']),
];
/** The longest on one core: still at it when the unit tests begin, and nobody waits. */
const TYPES: Step[] = [
  whole(
    'Types',
    // first what needs nothing the build writes anew
    ['npx', 'tsc', '-p', 'tsconfig.pure.json'],
    ['npx', 'astro', 'check', '--noSync', '--minimumFailingSeverity', 'warning'],
  ),
];
const ON_BOTH_CORES: Step[] = [
  { title: 'Unit tests and oracles', run: unitTests },
  { title: 'Browser tests', run: browserTests },
];

const print: Show = (text) => void process.stdout.write(text);

async function runStep({ title, run }: Step): Promise<Count> {
  print(`\n== ${title}\n`);
  const started = Date.now();
  const count = await run(print);
  print(`== ${title}: ${((Date.now() - started) / 1000).toFixed(1)} s\n`);
  return count;
}

/** Steps one after another, each shown whole at its end, so that what runs beside it does not fall into it. */
async function runLane(steps: readonly Step[]): Promise<Count[]> {
  const counts: Count[] = [];
  for (const { title, run } of steps) {
    const kept: Uint8Array[] = [];
    const started = Date.now();
    const count = await run((text) => kept.push(Buffer.from(text)));
    const took = ((Date.now() - started) / 1000).toFixed(1);
    print(Buffer.concat([Buffer.from(`\n== ${title}\n`), ...kept]));
    print(`== ${title}: ${took} s\n`);
    counts.push(count);
  }
  return counts;
}

rmSync(REPORTS, { recursive: true, force: true });
mkdirSync(REPORTS, { recursive: true });
// one cluster for the whole run; each test file takes a database of its own in it
const isGiven = process.env['TEST_DATABASE_URL'] !== undefined;
const cluster = !isGiven && hasPostgres() ? await startCluster() : null;
if (cluster !== null) {
  process.env['TEST_DATABASE_URL'] = cluster.url;
  process.env['TEST_CLUSTER_ENDS'] = 'with the run';
  // also when the run is broken off
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      for (const child of running) child.kill(signal);
      cluster.stop();
      process.exit(1);
    });
  }
}

const counts = [await runStep(FIRST)];
const types = runLane(TYPES);
counts.push(...(await runLane(BUILD)));
for (const step of ON_BOTH_CORES) counts.push(await runStep(step));
counts.push(...(await types));
cluster?.stop();
if (!isGiven && cluster === null) console.log(`\n${NO_POSTGRES}`);
const passed = counts.reduce((sum, one) => sum + one.passed, 0);
const failed = counts.reduce((sum, one) => sum + one.failed, 0);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
