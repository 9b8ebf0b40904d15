import { createHash } from 'node:crypto';
import { type IncomingMessage, request } from 'node:http';
import { PassThrough } from 'node:stream';
import { brotliDecompressSync, createBrotliDecompress, createGunzip, gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { acceptedCoding } from '../../src/server/content-coding.ts';
import {
  LONG_PARTS,
  LONG_SCRIPT,
  longPart,
  made,
  makeTempServer,
  send,
  type TempServer,
} from './temp-server.ts';

let temp: TempServer;
beforeAll(async () => {
  temp = await makeTempServer();
});
afterAll(() => temp.remove());

const STREAMED = Array.from({ length: 200 }, (_, i) => `<p>part ${i} of a long page</p>`).join('');

describe('a reply in text', () => {
  it.each([
    ['/_astro/page.hash1234.js', LONG_SCRIPT],
    ['/stream', STREAMED],
  ])('%s is the same plain, in gzip and in brotli, and smaller', async (path, text) => {
    const ask = (accept?: string) =>
      send(temp.port, path, accept === undefined ? {} : { headers: { 'accept-encoding': accept } });
    const plain = await ask();
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(plain.body.toString()).toBe(text);
    const gzip = await ask('gzip, deflate');
    expect(gzip.headers['content-encoding']).toBe('gzip');
    expect(gunzipSync(gzip.body).toString()).toBe(text);
    const brotli = await ask('gzip, deflate, br');
    expect(brotli.headers['content-encoding']).toBe('br');
    expect(brotliDecompressSync(brotli.body).toString()).toBe(text);
    for (const reply of [gzip, brotli]) {
      expect(reply.body.length).toBeLessThan(text.length / 2);
      expect(reply.headers.vary).toBe('accept-encoding');
    }
    const head = await send(temp.port, path, {
      method: 'HEAD',
      headers: { 'accept-encoding': 'br' },
    });
    expect(head.body).toHaveLength(0);
  });

  it('is left alone when it is short or not text', async () => {
    for (const path of ['/page', '/favicon.svg', '/_astro/face.hash5678.woff2']) {
      const reply = await send(temp.port, path, { headers: { 'accept-encoding': 'br, gzip' } });
      expect(reply.headers['content-encoding'], path).toBeUndefined();
    }
  });

  // RFC 9110 section 12.5.3
  it.each([
    ['gzip, deflate, br', 'br'],
    ['gzip;q=1.0, br;q=0', 'gzip'],
    ['br;q=0.1', 'br'],
    ['GZIP', 'gzip'],
    ['identity', null],
    ['', null],
    [undefined, null],
  ])('%j takes %j', (accept, coding) => {
    expect(acceptedCoding(accept)).toBe(coding);
  });
});

describe('a long reply', () => {
  const wait = (ms: number) => new Promise((wake) => setTimeout(wake, ms));

  it.each(['identity', 'gzip', 'br'])(
    'in %s is made as fast as it is read, and whole',
    async (coding) => {
      const reply = await new Promise<IncomingMessage>((resolve, reject) => {
        const headers = { 'accept-encoding': coding };
        request({ host: '127.0.0.1', port: temp.port, path: '/long', headers }, resolve)
          .on('error', reject)
          .end();
      });
      // until it stands still: some lies in buffers of the system, the rest of 39 MB is not made
      let before = -1;
      while (before !== made.parts) {
        before = made.parts;
        await wait(500);
      }
      expect(before).toBeLessThan(LONG_PARTS / 2);
      const unpack = {
        identity: new PassThrough(),
        gzip: createGunzip(),
        br: createBrotliDecompress(),
      };
      const hash = createHash('sha256');
      for await (const chunk of reply.pipe(unpack[coding as 'br'])) hash.update(chunk);
      const whole = createHash('sha256');
      for (let at = 0; at < LONG_PARTS; at++) whole.update(longPart(at));
      expect(hash.digest('hex')).toBe(whole.digest('hex'));
    },
  );

  it('that nobody reads to its end is not made to its end', async () => {
    const reply = await new Promise<IncomingMessage>((resolve) => {
      request({ host: '127.0.0.1', port: temp.port, path: '/long' }, resolve).end();
    });
    reply.destroy();
    await wait(500);
    const { parts } = made;
    await wait(300);
    expect(made.parts).toBe(parts);
    expect(parts).toBeLessThan(LONG_PARTS);
    expect(made.isOver).toBe(true);
  });
});

describe('a built file', () => {
  it('whose name has a hash is kept for a year, any other is asked about each time', async () => {
    const cacheOf = async (path: string) => (await send(temp.port, path)).headers['cache-control'];
    expect(await cacheOf('/_astro/page.hash1234.js')).toBe('public, max-age=31536000, immutable');
    expect(await cacheOf('/')).toBe('public, no-cache');
    expect(await cacheOf('/page')).toBe('no-store');
  });

  it.each([
    ['/', 'text/html; charset=utf-8'],
    ['/_astro/page.hash1234.js', 'text/javascript; charset=utf-8'],
    ['/_astro/face.hash5678.woff2', 'font/woff2'],
    ['/favicon.svg', 'image/svg+xml'],
    ['/with%20space.txt', 'text/plain; charset=utf-8'],
    ['/lessons?unit=mm', 'text/html; charset=utf-8'],
  ])('%s is sent as %s', async (path, type) => {
    const reply = await send(temp.port, path);
    expect(reply.status).toBe(200);
    expect(reply.headers['content-type']).toBe(type);
    expect(Number(reply.headers['content-length'])).toBe(reply.body.length);
  });

  it.each(['/../package.json', '/%2e%2e/package.json', '/..%2fpackage.json', '/lessons/../../x'])(
    'outside the folder is never found: %s',
    async (path) => {
      expect((await send(temp.port, path)).status).toBe(404);
    },
  );
});

describe('a redirect', () => {
  it('keeps its cookies apart', async () => {
    const reply = await send(temp.port, '/go');
    expect(reply.headers.location).toBe('/page');
    expect(reply.headers['set-cookie']).toEqual(['a=1', 'b=2']);
  });
});

describe('stopping', () => {
  it('lets a running request finish and takes no new one', async () => {
    const own = await makeTempServer();
    const running = send(own.port, '/slow');
    await new Promise((resolve) => setTimeout(resolve, 50));
    await own.server.stop();
    expect((await running).body.toString()).toBe('<p>slow but whole</p>');
    await expect(send(own.port, '/page')).rejects.toThrow(/ECONNREFUSED/);
    await own.remove();
  });
});
