import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { build } from 'vite';
import { leaveOutShaders } from '../../src/scene/leave-out-shaders.ts';

const KINDS: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
};

/** The stage alone on a page of its own (`tests/scene/page`), built and served on loopback. */
export async function serveStagePage(): Promise<{ address: string; stop(): Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), 'stage-'));
  await build({
    root: new URL('../scene/page/', import.meta.url).pathname,
    configFile: false,
    logLevel: 'error',
    plugins: [leaveOutShaders()],
    build: { outDir: folder, emptyOutDir: true },
  });
  const server = createServer((request, reply) => {
    const path = request.url === '/' ? '/index.html' : (request.url ?? '');
    try {
      const body = readFileSync(join(folder, path));
      reply.setHeader('content-type', KINDS[extname(path)] ?? 'application/octet-stream');
      reply.end(body);
    } catch {
      reply.statusCode = path === '/favicon.ico' ? 204 : 404;
      reply.end();
    }
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    async stop() {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
