import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parentPort, workerData } from 'node:worker_threads';
import type { Case } from './vitest-shim.ts';

/**
 * One thread that holds the tests and every change, and tries changes one after another. The thread
 * that started it stops it when a change makes it run for ever.
 */
type Given = {
  readonly codeFile: string;
  readonly tests: readonly string[];
  /** a change that is made before anything is read, or null */
  readonly first: number | null;
};

const { codeFile, tests, first } = workerData as Given;
const code = JSON.parse(readFileSync(codeFile, 'utf8')) as Record<string, string>;

let active = first ?? -1;
let reached: Set<number> | null = null;
(globalThis as { __m?: (id: number) => boolean }).__m = (id) => {
  reached?.add(id);
  return id === active;
};

const SHIMS: Readonly<Record<string, string>> = {
  vitest: join(import.meta.dirname, 'vitest-shim.ts'),
  'fast-check': join(import.meta.dirname, 'fast-check-shim.ts'),
};

registerHooks({
  resolve: (specifier, context, next) => {
    const shim = SHIMS[specifier];
    const isShim = context.parentURL?.includes('/tests/mutation/') ?? false;
    if (shim === undefined || isShim) return next(specifier, context);
    return { url: pathToFileURL(shim).href, shortCircuit: true };
  },
  load: (url, context, next) => {
    const changed = url.startsWith('file:') ? code[fileURLToPath(url)] : undefined;
    if (changed === undefined) return next(url, context);
    return { format: 'module', source: changed, shortCircuit: true };
  },
});

const shim = (await import('./vitest-shim.ts')) as typeof import('./vitest-shim.ts');
const cases: Case[] = [];

/** Reads every test file, and whatever they would read once and keep. */
async function readTests(): Promise<void> {
  const content = (await import(
    '../../src/store/content-files.ts'
  )) as typeof import('../../src/store/content-files.ts');
  content.loadLimitSets();
  content.loadFaultCatalogue();
  content.loadBenches();
  content.loadRacks();
  for (const file of tests) {
    shim.startFile();
    await import(pathToFileURL(file).href);
    cases.push(...shim.collected);
  }
}

/** Runs tests by their numbers until one fails. @returns its number, or null */
async function runUntilOneFails(numbers: readonly number[]): Promise<number | null> {
  for (const number of numbers) {
    try {
      await cases[number]?.run();
    } catch {
      return number;
    }
  }
  return null;
}

type Asked =
  | { readonly ask: 'cover' }
  | { readonly ask: 'try'; readonly id: number; readonly cases: readonly number[] };

const answer = (message: unknown): void => parentPort?.postMessage(message);

parentPort?.on('message', async (asked: Asked) => {
  if (asked.ask === 'try') {
    active = asked.id;
    const failed = await runUntilOneFails(asked.cases);
    active = -1;
    answer({ id: asked.id, killedBy: failed === null ? null : (cases[failed]?.name ?? '') });
    return;
  }
  const covered: { name: string; ms: number; ids: number[]; failed: string | null }[] = [];
  for (const { name, run } of cases) {
    reached = new Set();
    const started = performance.now();
    let failed: string | null = null;
    try {
      await run();
    } catch (error) {
      failed = String(error);
    }
    covered.push({ name, ms: performance.now() - started, ids: [...reached], failed });
  }
  reached = null;
  answer({ covered });
});

/** With the change in from the start: reads and runs one file of tests after another until one fails. */
async function hunt(): Promise<string | null> {
  for (const file of tests) {
    shim.startFile();
    try {
      await import(pathToFileURL(file).href);
    } catch {
      return 'it cannot be read';
    }
    if (shim.collected.length === 0) return 'there are no tests';
    for (const { name, run } of [...shim.collected]) {
      try {
        await run();
      } catch {
        return name;
      }
    }
  }
  return null;
}

if (first !== null) answer({ id: first, killedBy: await hunt() });
else {
  reached = new Set();
  try {
    await readTests();
    answer({ ready: cases.length, atStart: [...reached] });
  } catch (error) {
    answer({ broken: String(error) });
  }
  reached = null;
}
