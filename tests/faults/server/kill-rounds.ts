import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'vite';
import type { EventDraft } from '../../../src/records/index.ts';
import { seeded } from '../../helpers/seeded.ts';
import type { Engine } from './engine.ts';
import { findWrong } from './independent-log.ts';
import type { Order } from './order.ts';

export type Killed = {
  readonly rounds: number;
  /** processes killed before they had opened the store, while they sent again, and while they wrote */
  readonly killed: { opening: number; again: number; writing: number };
  readonly offered: number;
  readonly acknowledged: number;
  /** offered, not acknowledged, and found in the log: the answer was lost and the event was not */
  readonly answersLost: number;
  readonly lost: number;
  readonly doubled: number;
  readonly torn: number;
  readonly wrong: readonly string[];
};

/** The writer as one file, so that a process is ready in a tenth of a second: 200 rounds are 200 processes. */
export async function bundleWriter(): Promise<{ file: string; remove: () => void }> {
  // inside the project, so that what is not bundled is still found
  const folder = mkdtempSync(resolve(import.meta.dirname, '../../../node_modules/.faults-'));
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: resolve(import.meta.dirname, 'writer.ts'),
      outDir: folder,
      target: 'node24',
      rollupOptions: { output: { entryFileNames: 'writer.mjs', format: 'es' } },
    },
    ssr: { noExternal: true },
  });
  return {
    file: join(folder, 'writer.mjs'),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

const YEAR_MS = 365 * 24 * 60 * 60 * 1000;

async function startWriter(file: string): Promise<ChildProcess> {
  const child = spawn(process.execPath, [file], { stdio: ['pipe', 'pipe', 'inherit'] });
  await once(child.stdout as NodeJS.ReadableStream, 'data');
  return child;
}

type Heard = { phase: 'opening' | 'again' | 'writing'; lines: string[] };

/** Tells the process what to do, waits for a phase to begin and `lateMs` more, and kills it. */
async function killDuring(
  child: ChildProcess,
  order: Order,
  { phase, lateMs }: { phase: Heard['phase']; lateMs: number },
): Promise<Heard> {
  let printed = '';
  const begun = { opening: '', again: 'open\n', writing: 'writing\n' }[phase];
  const kill = () => void setTimeout(() => child.kill('SIGKILL'), lateMs);
  let isAimed = false;
  const aim = () => {
    if (isAimed || !printed.includes(begun)) return;
    isAimed = true;
    kill();
  };
  child.stdout?.on('data', (chunk: Buffer) => {
    printed += String(chunk);
    aim();
  });
  const closed = once(child, 'close');
  child.stdin?.end(`${JSON.stringify(order)}\n`);
  aim();
  const late = setTimeout(() => child.kill('SIGKILL'), 20_000);
  await closed;
  clearTimeout(late);
  // the last line may be cut in half
  const lines = printed
    .slice(0, printed.lastIndexOf('\n') + 1)
    .split('\n')
    .filter(Boolean);
  const seen = lines.includes('writing') ? 'writing' : lines.includes('open') ? 'again' : 'opening';
  return { phase: seen, lines };
}

/**
 * Kills a writing process `rounds` times at moments of chance, with its clock up to five years out, and reads
 * the store after each without the site's code. What nobody heard the answer to is sent again by the next.
 */
export async function killInRounds(
  engine: Engine,
  { rounds, seed, writer }: { rounds: number; seed: number; writer: string },
): Promise<Killed> {
  const random = seeded(seed);
  const acknowledged = new Set<string>();
  const pairs: string[][] = [];
  const killed = { opening: 0, again: 0, writing: 0 };
  const wrong: string[] = [];
  let open: EventDraft[][] = [];
  let offered = 0;
  const answersLost = new Set<string>();
  let lost = 0;
  let doubled = 0;
  let torn = 0;
  let next = startWriter(writer);
  for (let round = 0; round < rounds; round++) {
    const child = await next;
    next = startWriter(writer);
    const where = random();
    const phase = where < 0.1 ? 'opening' : where < 0.25 ? 'again' : 'writing';
    const heard = await killDuring(
      child,
      {
        place: engine.place,
        keyFile: engine.keyFile,
        again: open,
        clockOffset: round % 3 === 0 ? Math.round((random() - 0.5) * 10 * YEAR_MS) : 0,
        hands: 1 + Math.floor(random() * 4),
      },
      { phase: round === 0 ? 'writing' : phase, lateMs: random() * (phase === 'writing' ? 60 : 5) },
    );
    killed[heard.phase]++;
    for (const line of heard.lines) {
      const [word = '', ...rest] = line.split(' ');
      if (word === 'failed') wrong.push(`round ${round}: the writer failed: ${rest.join(' ')}`);
      if (word === 'offer') {
        const drafts = JSON.parse(rest.join(' ')) as EventDraft[];
        offered += drafts.length;
        open.push(drafts);
        if (drafts.length > 1) pairs.push(drafts.map(({ id }) => id));
      }
      if (word === 'kept') for (const id of rest) acknowledged.add(id);
    }
    open = open.filter((drafts) => drafts.some(({ id }) => !acknowledged.has(id)));

    const log = await engine.readLog();
    wrong.push(...findWrong(log, engine.keyFile).map((one) => `round ${round}: ${one}`));
    const ids = log.rows.map(({ id }) => id);
    const there = new Set(ids);
    doubled += ids.length - there.size;
    lost += [...acknowledged].filter((id) => !there.has(id)).length;
    torn += pairs.filter((pair) => new Set(pair.map((id) => there.has(id))).size > 1).length;
    for (const { id } of open.flat()) if (there.has(id)) answersLost.add(id);
    if (wrong.length > 0) break;
  }
  (await next).kill('SIGKILL');
  return {
    rounds,
    killed,
    offered,
    acknowledged: acknowledged.size,
    answersLost: answersLost.size,
    lost,
    doubled,
    torn,
    wrong,
  };
}
