import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import {
  type PageHandler,
  type RunningServer,
  type Settings,
  startServer,
} from '../../src/server/index.ts';
import type { Patience } from '../../src/server/patience.ts';
import { readStaticFiles } from '../../src/server/static-files.ts';

export const LONG_SCRIPT = `export const words = ${JSON.stringify('riving knife '.repeat(400))};\n`;

/** More than a system keeps for a reader that does not read. */
export const LARGE_REPLY = Buffer.alloc(24_000_000, 'saw ');

const FILES: Readonly<Record<string, string>> = {
  'index.html': '<!doctype html><title>First</title>',
  'lessons/index.html': '<!doctype html><title>Lessons</title>',
  '404.html': '<!doctype html><title>Nothing here</title>',
  'de/404/index.html': '<!doctype html><title>Hier ist nichts</title>',
  '_astro/page.hash1234.js': LONG_SCRIPT,
  '_astro/face.hash5678.woff2': 'x'.repeat(4_000),
  'favicon.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
  'with space.txt': 'spaced',
};

/** What has been made so far of the long reply, and whether whoever makes it has gone home. */
export const made = { parts: 0, isOver: false };
export const LONG_PARTS = 600;
/** 64 kB that no packing makes much smaller. */
export const longPart = (at: number): string =>
  createHash('shake256', { outputLength: 32_768 }).update(`part ${at}`).digest('hex');

/** Pages as the built site's handler answers them: in one piece, in parts, badly, or not at all. */
const pages: PageHandler = async (request, response, next, { roomToSend }) => {
  const path = new URL(request.url ?? '/', 'http://x').pathname;
  const html = { 'content-type': 'text/html' };
  switch (path) {
    case '/page':
      response.writeHead(200, html).end('<p>page</p>');
      return;
    case '/stream':
      response.writeHead(200, html);
      for (let i = 0; i < 200; i++) response.write(`<p>part ${i} of a long page</p>`);
      response.end();
      return;
    case '/api/echo':
      response
        .writeHead(200, { 'content-type': 'application/json' })
        .end(JSON.stringify({ body: String((request as { body?: Buffer }).body ?? '') }));
      return;
    case '/scheme':
      response
        .writeHead(200, { 'content-type': 'text/plain' })
        .end('encrypted' in request.socket && request.socket.encrypted ? 'https' : 'http');
      return;
    case '/go':
      response.writeHead(303, { location: '/page', 'set-cookie': ['a=1', 'b=2'] }).end();
      return;
    case '/limited':
    case '/de/limited':
    case '/api/limited':
      response.writeHead(429, { 'retry-after': '7' }).end();
      return;
    case '/bare-500':
    case '/api/bare-500':
      response.statusCode = 500;
      response.end('Internal Server Error at /some/folder/file.ts:12');
      return;
    case '/bare-403':
      response.writeHead(403).end();
      return;
    case '/throws':
    case '/api/throws':
      throw new Error('secret detail in /some/folder/file.ts');
    case '/slow':
      await new Promise((resolve) => setTimeout(resolve, 300));
      response.writeHead(200, html).end('<p>slow but whole</p>');
      return;
    case '/large':
      response.writeHead(200, html).end(LARGE_REPLY);
      return;
    case '/long':
      response.writeHead(200, html);
      made.isOver = false;
      for (made.parts = 0; made.parts < LONG_PARTS && !response.destroyed; made.parts++) {
        await roomToSend();
        response.write(longPart(made.parts));
      }
      made.isOver = true;
      response.end();
      return;
    case '/own-policy':
      response.writeHead(200, { ...html, 'content-security-policy': 'default-src *' }).end('x');
      return;
    default:
      next();
  }
};

export type TempServer = {
  readonly server: RunningServer;
  readonly port: number;
  readonly remove: () => Promise<void>;
};

/** The server with a few files and pages, on a free port. */
export async function makeTempServer(
  over: Partial<Settings> = {},
  patience?: Patience,
): Promise<TempServer> {
  const folder = mkdtempSync(join(tmpdir(), 'server-test-'));
  for (const [name, text] of Object.entries(FILES)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  const settings: Settings = {
    port: 0,
    host: '127.0.0.1',
    dataDir: folder,
    siteUrl: null,
    ...over,
  };
  const server = await startServer({
    settings,
    pages,
    files: readStaticFiles(folder),
    ...(patience === undefined ? {} : { patience }),
  });
  return {
    server,
    port: server.port,
    remove: async () => {
      await server.stop(100);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type Reply = {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
};

/** One request with exactly these headers: fetch would add its own and undo compression. */
export function send(
  port: number,
  path: string,
  {
    method = 'GET',
    headers = {},
    body,
  }: {
    readonly method?: string;
    readonly headers?: Readonly<Record<string, string>>;
    readonly body?: string | Buffer;
  } = {},
): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const request = httpRequest({ host: '127.0.0.1', port, path, method, headers }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('error', reject);
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(chunks),
        }),
      );
    });
    request.on('error', reject);
    request.end(body);
  });
}
