import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'vite';

/** The writer as one file, so that a process is ready in a tenth of a second: 200 rounds are hundreds of processes. */
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

/** How long a process may take to say what is waited for, ms: then it is killed. */
const PATIENCE_MS = 30_000;

/** A writing process, seen from outside. */
export type WritingProcess = {
  readonly tell: (line: string) => void;
  /** Resolves when it has said `word` since it was last told an order, or has ended. */
  readonly hear: (word: string) => Promise<void>;
  /** Kills it in `lateMs`; resolves when it is dead. */
  readonly kill: (lateMs: number) => Promise<void>;
  readonly hasEnded: () => boolean;
  /** whether it has the store open, idle or not */
  readonly hasOpened: () => boolean;
  /** what it said since last asked, in whole lines: the last one may be cut in half */
  readonly takeLines: () => string[];
};

export async function startWriter(file: string): Promise<WritingProcess> {
  const child = spawn(process.execPath, [file], { stdio: ['pipe', 'pipe', 'inherit'] });
  let part = '';
  let lines: string[] = [];
  let isOpen = false;
  let isEnded = false;
  const waiting = new Set<() => void>();
  const wake = () => {
    for (const look of [...waiting]) look();
  };
  child.stdout.on('data', (chunk: Buffer) => {
    const [last = '', ...whole] = `${part}${chunk}`.split('\n').reverse();
    part = last;
    lines.push(...whole.reverse());
    isOpen ||= lines.includes('open');
    wake();
  });
  // one that was killed reads no more
  child.stdin.on('error', () => undefined);
  const closed = once(child, 'close').then(() => {
    isEnded = true;
    wake();
  });
  const hear = (word: string) =>
    new Promise<void>((done) => {
      const late = setTimeout(() => child.kill('SIGKILL'), PATIENCE_MS);
      const look = () => {
        if (!isEnded && !lines.includes(word)) return;
        waiting.delete(look);
        clearTimeout(late);
        done();
      };
      waiting.add(look);
      look();
    });
  await hear('loaded');
  lines = [];
  return {
    tell: (line) => void child.stdin.write(`${line}\n`),
    hear,
    async kill(lateMs) {
      await new Promise((wait) => setTimeout(wait, lateMs));
      child.kill('SIGKILL');
      await closed;
    },
    hasEnded: () => isEnded,
    hasOpened: () => isOpen,
    takeLines() {
      const said = lines.filter(Boolean);
      lines = [];
      return said;
    },
  };
}
