import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { EQUIVALENT } from './equivalent.ts';
import type { Mutant } from './mutants.ts';
import { instrumentAll } from './sources.ts';

/**
 * `node tests/mutation/run.ts [PART OF A PATH]`: changes src/bench and src/limits in every small way
 * it knows, one change at a time, and runs the engine's tests that reach the change until one fails.
 * Prints what no test noticed, and exits 1 when under 90 in a hundred were.
 */
const GOAL = 0.9;
const ROOT = join(import.meta.dirname, '..');
const TEST_FOLDERS = ['bench', 'limits', 'grading', 'oracles', 'geometry'];
const tests = TEST_FOLDERS.flatMap((folder) =>
  readdirSync(join(ROOT, folder))
    .filter((file) => file.endsWith('.test.ts'))
    .sort()
    .map((file) => join(ROOT, folder, file)),
);

type Answer = {
  readonly ready?: number;
  readonly atStart?: readonly number[];
  readonly broken?: string;
  readonly id?: number;
  readonly killedBy?: string | null;
  readonly covered?: readonly {
    readonly name: string;
    readonly ms: number;
    readonly ids: readonly number[];
    readonly failed: string | null;
  }[];
};

const folder = mkdtempSync(join(tmpdir(), 'mutation-'));
const codeFile = join(folder, 'code.json');
const { code, mutants } = instrumentAll();
writeFileSync(codeFile, JSON.stringify(code));
const only = process.argv[2];

function startThread(first: number | null, order: readonly string[]): Worker {
  return new Worker(join(import.meta.dirname, 'worker.ts'), {
    workerData: { codeFile, tests: order, first },
    stderr: true,
    stdout: true,
  });
}

/** A thread with the tests in it, ready; or why it could not be made so. */
async function openThread(): Promise<{ worker: Worker; opened: Answer }> {
  const worker = startThread(null, tests);
  const opened = await nextAnswer(worker, 120_000);
  return { worker, opened: opened ?? { broken: 'it never ended' } };
}

/** null when there is none in time, or the thread ends. */
function nextAnswer(worker: Worker, most: number): Promise<Answer | null> {
  return new Promise((done) => {
    const finish = (answer: Answer | null): void => {
      clearTimeout(timer);
      worker.off('message', finish);
      worker.off('exit', ended);
      worker.off('error', ended);
      done(answer);
    };
    const ended = (): void => finish(null);
    const timer = setTimeout(ended, most);
    worker.on('message', finish);
    worker.on('exit', ended);
    worker.on('error', ended);
  });
}

async function ask(worker: Worker, asked: object, most: number): Promise<Answer | null> {
  const answer = nextAnswer(worker, most);
  worker.postMessage(asked);
  return answer;
}

const survivors: Mutant[] = [];
let killed = 0;
let notReached = 0;
let equal = 0;

const nameOf = ({ file, was, now }: Mutant): string =>
  `${file}: ${was} -> ${now}`.replace(/\s+/g, ' ');

function settle(mutant: Mutant, killedBy: string | null): void {
  if (killedBy !== null) killed += 1;
  else if (EQUIVALENT.has(nameOf(mutant))) equal += 1;
  else survivors.push(mutant);
}

const started = performance.now();
let { worker, opened } = await openThread();
if (opened.broken !== undefined) throw new Error(opened.broken);
const plan = await ask(worker, { ask: 'cover' }, 600_000);
const covered = plan?.covered ?? [];
const failing = covered.filter(({ failed }) => failed !== null);
if (failing.length > 0) {
  throw new Error(
    `tests fail unchanged:\n${failing.map(({ name, failed }) => `${name}: ${failed}`).join('\n')}`,
  );
}
const total = covered.reduce((sum, { ms }) => sum + ms, 0);
console.log(`${covered.length} tests in ${(total / 1000).toFixed(1)} s, ${mutants.length} changes`);

const byTime = covered
  .map((_, i) => i)
  .sort((a, b) => (covered[a]?.ms ?? 0) - (covered[b]?.ms ?? 0));
const reaching = new Map<number, number[]>();
for (const number of byTime) {
  for (const id of covered[number]?.ids ?? []) {
    const list = reaching.get(id);
    if (list === undefined) reaching.set(id, [number]);
    else list.push(number);
  }
}
const atStart = new Set(opened.atStart);
const chosen = mutants.filter(({ file }) => only === undefined || file.includes(only));

const timeFor = (numbers: readonly number[]): number =>
  5000 + 10 * numbers.reduce((sum, number) => sum + (covered[number]?.ms ?? 0), 0);

let done = 0;
for (const mutant of chosen) {
  done += 1;
  if (done % 200 === 0) {
    const spent = (performance.now() - started) / 1000;
    console.log(
      `${done} of ${chosen.length} in ${spent.toFixed(0)} s, ${survivors.length} left standing`,
    );
  }
  const numbers = reaching.get(mutant.id) ?? [];
  let outcome: string | null | undefined;
  if (numbers.length > 0) {
    const answer = await ask(
      worker,
      { ask: 'try', id: mutant.id, cases: numbers },
      timeFor(numbers),
    );
    if (answer === null) {
      outcome = 'it never ended';
      await worker.terminate();
      ({ worker, opened } = await openThread());
    } else outcome = answer.killedBy;
  }
  // what is done when a file is read has to be read anew with the change in it
  if ((outcome === null || outcome === undefined) && atStart.has(mutant.id)) {
    outcome = await tryFromStart(mutant);
  }
  if (outcome === undefined) notReached += 1;
  settle(mutant, outcome ?? null);
}
await worker.terminate();

/** Files of tests, those named like the changed file first: they are the likeliest to notice. */
function likeliest(file: string): string[] {
  const words = file.split(/[/.-]/).filter((word) => word.length > 3 && word !== 'index');
  const alike = (path: string) =>
    words.filter((word) => path.slice(ROOT.length).includes(word)).length;
  return [...tests].sort((a, b) => alike(b) - alike(a));
}

async function tryFromStart({ id, file }: Mutant): Promise<string | null> {
  const hunter = startThread(id, likeliest(file));
  try {
    const answer = await nextAnswer(hunter, 120_000 + 10 * total);
    return answer === null ? 'it never ended' : (answer.killedBy ?? null);
  } finally {
    await hunter.terminate();
  }
}

const byFile = Map.groupBy(survivors, ({ file }) => file);
for (const [file, left] of byFile) {
  console.log(`\n${file}`);
  for (const { line, was, now } of left)
    console.log(`  ${line}: ${was.slice(0, 90)}  ->  ${now.slice(0, 90)}`);
}
const counted = chosen.length - equal;
const share = killed / counted;
console.log(
  `\n${killed} of ${counted} changes noticed (${(100 * share).toFixed(1)} %), ${notReached} reached by no test, ${equal} judged to change nothing`,
);
rmSync(folder, { recursive: true });
process.exitCode = share >= GOAL || only !== undefined ? 0 : 1;
