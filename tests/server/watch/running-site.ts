import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import type { LogLine } from '../../../src/logging/index.ts';
import { DEMO_PASSWORD } from '../../helpers/site.ts';

const ROOT = resolve(import.meta.dirname, '../../..');

/** The built site as a process of its own, with every line of its log. */
export type LoggedSite = {
  readonly data: string;
  readonly port: number;
  readonly url: string;
  readonly lines: LogLine[];
  /** everything it has printed, on both its outputs */
  readonly printed: () => string;
  readonly signal: (name: 'SIGTERM' | 'SIGINT' | 'SIGUSR2') => void;
  /** its exit code */
  readonly ended: Promise<number | null>;
  readonly remove: () => Promise<void>;
};

const run = (file: string, env: NodeJS.ProcessEnv, ...words: string[]): ChildProcess =>
  spawn(process.execPath, [join(ROOT, file), ...words], { cwd: ROOT, env, stdio: 'pipe' });

export async function startLogged(
  fill: 'empty' | 'demo',
  over: Readonly<Record<string, string>> = {},
): Promise<LoggedSite> {
  const data = mkdtempSync(join(tmpdir(), 'logged-site-'));
  const env = {
    ...process.env,
    DATA_DIR: data,
    PORT: '0',
    HOST: '127.0.0.1',
    DEMO_PASSWORD,
    ...over,
  };
  if (fill === 'demo') {
    const filled = run('src/cli/demo.ts', env);
    await new Promise((resolve) => filled.once('exit', resolve));
  }
  // a whole run builds first; a build that is there is served as it is
  const built = existsSync(join(ROOT, 'dist/built.json')) ? ['--built'] : [];
  const child = run('src/cli/start.ts', env, ...built);
  const lines: LogLine[] = [];
  let printed = '';
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  child.stderr?.on('data', (some: Buffer) => {
    printed += some.toString();
  });
  const port = await new Promise<number>((found, lost) => {
    createInterface({ input: child.stdout as NodeJS.ReadableStream }).on('line', (text) => {
      printed += `${text}\n`;
      const line = JSON.parse(text) as LogLine;
      lines.push(line);
      if (line.event === 'start') found(line.port ?? 0);
    });
    void ended.then(() => lost(new Error(`the site did not start: ${printed}`)));
  });
  return {
    data,
    port,
    url: `http://127.0.0.1:${port}`,
    lines,
    printed: () => printed,
    signal: (name) => child.kill(name),
    ended,
    remove: async () => {
      child.kill('SIGKILL');
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}
