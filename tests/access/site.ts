import { type ChildProcess, spawn } from 'node:child_process';
import { Agent, request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { resolve } from 'node:path';
import type { WorldPlace } from './place.ts';

/** For a test that asks as often as it can, as one person. */
export const NO_LIMITS = { PERSON_REQUESTS_A_MINUTE: '0', ADDRESS_REQUESTS_A_MINUTE: '0' } as const;

const ROOT = resolve(import.meta.dirname, '../..');

export type Answer = {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
  /** ms until the last byte */
  readonly took: number;
};
export type Ask = {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array;
};
export type RunningSite = {
  readonly port: number;
  readonly origin: string;
  readonly send: (path: string, ask?: Ask) => Promise<Answer>;
  /** what the process has written so far, errors and all */
  readonly printed: () => string;
  readonly isAlive: () => boolean;
  readonly stop: () => Promise<void>;
};

/** The built site as its own process on a store that is there already. */
export async function runSiteOn({ env }: Pick<WorldPlace, 'env'>): Promise<RunningSite> {
  const child = spawn(process.execPath, ['src/cli/start.ts'], {
    cwd: ROOT,
    env: {
      ...process.env,
      ...NO_LIMITS,
      ...{ NO_COLOR: '1', PORT: '0', HOST: '127.0.0.1', ...env },
    },
    stdio: 'pipe',
  });
  let text = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (chunk: Buffer) => {
      text = (text + chunk.toString()).slice(-200_000);
    });
  }
  const port = await portOf(child, () => text);
  const agent = new Agent({ keepAlive: true, maxSockets: 16 });
  return {
    port,
    origin: `http://127.0.0.1:${port}`,
    send: (path, ask) => send(port, agent, path, ask),
    printed: () => text,
    isAlive: () => child.exitCode === null && child.signalCode === null,
    stop: async () => {
      agent.destroy();
      if (child.exitCode !== null || child.signalCode !== null) return;
      const ended = new Promise((done) => child.once('exit', done));
      child.kill('SIGTERM');
      await ended;
    },
  };
}

async function portOf(child: ChildProcess, printed: () => string): Promise<number> {
  const giveUp = Date.now() + 60_000;
  while (Date.now() < giveUp) {
    const found = /"event":"start","port":(\d+)|running at http:\/\/[^:\s]+:(\d+)/.exec(printed());
    if (found !== null) return Number(found[1] ?? found[2]);
    if (child.exitCode !== null) break;
    await new Promise((wake) => setTimeout(wake, 20));
  }
  throw new Error(`the site did not start: ${printed()}`);
}

/** One request with exactly these headers: fetch would add its own. */
function send(port: number, agent: Agent, path: string, ask: Ask = {}): Promise<Answer> {
  const { method = 'GET', headers = {}, body } = ask;
  const started = performance.now();
  return new Promise((done, fail) => {
    const request = httpRequest(
      {
        host: '127.0.0.1',
        port,
        path,
        method,
        agent,
        headers: {
          ...(body === undefined ? {} : { 'content-length': Buffer.byteLength(body) }),
          ...headers,
        },
      },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('error', fail);
        response.on('end', () =>
          done({
            status: response.statusCode ?? 0,
            headers: response.headers,
            body: Buffer.concat(chunks).toString('utf8'),
            took: performance.now() - started,
          }),
        );
      },
    );
    request.setTimeout(10_000, () => request.destroy(new Error('no answer within 10 s')));
    request.on('error', fail);
    request.end(body);
  });
}
