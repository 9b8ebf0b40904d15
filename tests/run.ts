import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { findChromium } from './helpers/find-chromium.ts';
import { hasPostgres, NO_POSTGRES, startCluster } from './helpers/postgres.ts';

/**
 * `npm test`: format and lint, types, the content, unit tests and oracles, the build, and a real browser.
 * Every step runs even when one before it failed; the last line counts them all.
 */
const ROOT = resolve(import.meta.dirname, '..');
const REPORTS = resolve(ROOT, 'test-results/reports');

type BrowserStats = { expected: number; flaky: number; unexpected: number };
type Count = { passed: number; failed: number };
type Step = { title: string; run: () => Count };

function runCommand(command: string, args: string[], env: Record<string, string> = {}): boolean {
  const windows = process.platform === 'win32';
  const done = spawnSync(command, args, {
    cwd: ROOT,
    stdio: 'inherit',
    shell: windows,
    env: { ...process.env, ...env },
  });
  return done.status === 0;
}

/** A step that either passes or fails as a whole. */
const whole = (title: string, ...commands: [string, ...string[]][]): Step => ({
  title,
  run: () => {
    const passed = commands.every(([command, ...args]) => runCommand(command, args));
    return { passed: passed ? 1 : 0, failed: passed ? 0 : 1 };
  },
});

const readReport = (file: string): unknown =>
  existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;

function unitTests(): Count {
  const report = resolve(REPORTS, 'unit.json');
  const passed = runCommand('npx', [
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

function browserTests(): Count {
  if (findChromium() === undefined && !runCommand('npx', ['playwright', 'install', 'chromium'])) {
    console.error(
      'No Chromium was found, and none could be installed. Install Chromium and run again.',
    );
    return { passed: 0, failed: 1 };
  }
  const report = resolve(REPORTS, 'browser.json');
  const passed = runCommand(
    'npx',
    ['playwright', 'test', '--config', 'tests/playwright.config.ts'],
    {
      TEST_REPORT: report,
    },
  );
  const result = readReport(report) as { stats: BrowserStats } | null;
  if (result === null) return { passed: 0, failed: 1 };
  const { expected, flaky, unexpected } = result.stats;
  if (flaky > 0) console.log(`${flaky} passed only when tried again; see the names above`);
  return { passed: expected + flaky, failed: passed ? unexpected : Math.max(1, unexpected) };
}

const STEPS: Step[] = [
  whole('Format and lint', ['npx', 'biome', 'ci', '--error-on-warnings', '.']),
  whole(
    'Types',
    ['npx', 'astro', 'check', '--minimumFailingSeverity', 'warning'],
    ['npx', 'tsc', '-p', 'tsconfig.pure.json'],
  ),
  whole('Content', ['node', 'src/cli/run.mjs', 'content']),
  whole('Build', ['node', 'src/cli/build.ts']),
  { title: 'Unit tests and oracles', run: unitTests },
  { title: 'Browser tests', run: browserTests },
];

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
      cluster.stop();
      process.exit(1);
    });
  }
}

const counts = STEPS.map(({ title, run }) => {
  console.log(`\n== ${title}`);
  const started = Date.now();
  const count = run();
  console.log(`== ${title}: ${((Date.now() - started) / 1000).toFixed(1)} s`);
  return count;
});
cluster?.stop();
if (!isGiven && cluster === null) console.log(`\n${NO_POSTGRES}`);
const passed = counts.reduce((sum, one) => sum + one.passed, 0);
const failed = counts.reduce((sum, one) => sum + one.failed, 0);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
