import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { Agent, request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';

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
export async function runSiteOn(
  dataDir: string,
  env: Readonly<Record<string, string>> = {},
): Promise<RunningSite> {
  const child = spawn(process.execPath, ['src/cli/start.ts'], {
    cwd: ROOT,
    env: { ...process.env, NO_COLOR: '1', DATA_DIR: dataDir, PORT: '0', HOST: '127.0.0.1', ...env },
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

/**
 * What each table holds, as a digest, read past the site: no code of ours stands between. When a session was last
 * seen is left out: that is what looking is.
 */
export function digestStore(dataDir: string): ReadonlyMap<string, string> {
  const db = new DatabaseSync(join(dataDir, 'store.sqlite'), { readOnly: true });
  try {
    const names = db
      .prepare("select name from sqlite_master where type = 'table' order by name")
      .all()
      .map(({ name }) => String(name));
    return new Map(
      names.map((name) => {
        const hash = createHash('sha256');
        for (const { seenAt: _, ...row } of db.prepare(`select * from "${name}"`).iterate()) {
          hash.update(
            JSON.stringify(row, (_key, value) => (typeof value === 'bigint' ? `${value}` : value)),
          );
        }
        return [name, hash.digest('hex')];
      }),
    );
  } finally {
    db.close();
  }
}
