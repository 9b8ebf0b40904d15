import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { makeTempServer, type Reply, send, type TempServer } from './temp-server.ts';

let temp: TempServer;
// The server tells its own log what was thrown; here it is thrown on purpose.
const logged = vi.spyOn(console, 'error').mockImplementation(() => undefined);
beforeAll(async () => {
  temp = await makeTempServer();
});
afterAll(async () => {
  logged.mockRestore();
  await temp.remove();
});

const SAME = { origin: 'http://127.0.0.1' };

/** What every reply must say, written out apart from the code. */
function expectAllHeaders({ headers }: Reply): void {
  const policy = String(headers['content-security-policy']).split('; ');
  for (const rule of [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ]) {
    expect(policy).toContain(rule);
  }
  expect(String(headers['content-security-policy'])).not.toMatch(/unsafe|\*|https?:/);
  expect(headers['x-content-type-options']).toBe('nosniff');
  expect(headers['x-frame-options']).toBe('DENY');
  expect(headers['referrer-policy']).toBe('same-origin');
  expect(headers['permissions-policy']).toContain('camera=()');
  expect(headers['cross-origin-opener-policy']).toBe('same-origin');
  expect(headers['cross-origin-resource-policy']).toBe('same-origin');
  expect(headers['x-powered-by']).toBeUndefined();
}

type Options = NonNullable<Parameters<typeof send>[2]>;
const KINDS: readonly (readonly [string, number, string, Options?])[] = [
  ['a static page', 200, '/'],
  ['a static page in a folder', 200, '/lessons'],
  ['a static page in a folder, with its slash', 200, '/lessons/'],
  ['a hashed script', 200, '/_astro/page.hash1234.js'],
  ['a script asked for by HEAD', 200, '/_astro/page.hash1234.js', { method: 'HEAD' }],
  ['a page made on demand', 200, '/page'],
  ['a page that sets a policy of its own', 200, '/own-policy'],
  ['a streamed page', 200, '/stream'],
  ['JSON', 200, '/api/echo', { method: 'POST', headers: SAME, body: '{}' }],
  ['a redirect', 303, '/go'],
  ['nothing', 404, '/nothing'],
  ['no such interface', 404, '/api/nothing'],
  ['a broken address', 404, '/%E0%A4%A'],
  ['a page that throws', 500, '/throws'],
  ['an interface that throws', 500, '/api/throws'],
  ['a bare 500', 500, '/bare-500'],
  ['a bare 403', 403, '/bare-403'],
  ['a page asked for too often', 429, '/limited'],
  ['an interface asked too often', 429, '/api/limited'],
  ['a form from elsewhere', 403, '/page', { method: 'POST' }],
  ['a post to a file', 405, '/lessons', { method: 'POST', headers: SAME }],
  ['another host name', 421, '/', { headers: { host: 'evil.example' } }],
];

describe('every reply carries every security header', () => {
  it.each(KINDS.map(([name, status, path, options = {}]) => ({ name, status, path, options })))(
    '$name: $status',
    async ({ status, path, options }) => {
      const headers: Record<string, string> = { ...options.headers };
      if (headers['origin'] !== undefined) headers['origin'] = `http://127.0.0.1:${temp.port}`;
      const reply = await send(temp.port, path, { ...options, headers });
      expect(reply.status).toBe(status);
      expectAllHeaders(reply);
    },
  );

  it('a file the browser has already: 304', async () => {
    const { headers } = await send(temp.port, '/');
    const reply = await send(temp.port, '/', {
      headers: { 'if-none-match': String(headers.etag) },
    });
    expect(reply.status).toBe(304);
    expect(reply.body).toHaveLength(0);
    expectAllHeaders(reply);
  });

  it('something that is not HTTP: 400', async () => {
    const text = await new Promise<string>((resolve, reject) => {
      let received = '';
      const socket = connect(temp.port, '127.0.0.1', () => socket.write('not http at all\r\n\r\n'));
      socket.on('data', (chunk) => {
        received += String(chunk);
      });
      socket.on('error', reject);
      socket.on('close', () => resolve(received));
    });
    expect(text).toMatch(/^HTTP\/1\.1 400 /);
    expect(text.toLowerCase()).toContain('content-security-policy: default-src');
    expect(text.toLowerCase()).toContain('x-content-type-options: nosniff');
  });

  it('asks for https for two years on a site that has it, and only there', async () => {
    expect((await send(temp.port, '/')).headers['strict-transport-security']).toBeUndefined();
    const secure = await makeTempServer({ siteUrl: new URL('https://saw.example') });
    const reply = await send(secure.port, '/', { headers: { host: 'saw.example' } });
    expect(reply.headers['strict-transport-security']).toMatch(/^max-age=63072000/);
    await secure.remove();
  });
});

describe('an error', () => {
  it.each(['/throws', '/bare-500', '/bare-403', '/nothing', '/api/throws', '/api/bare-500'])(
    '%s says one sentence and nothing of the inside',
    async (path) => {
      const { body, headers } = await send(temp.port, path);
      const text = body.toString('utf8');
      expect(text).not.toMatch(/secret|folder|\.ts|at .*:\d+/);
      expect(headers['cache-control']).toBe('no-store');
      if (path.startsWith('/api/')) {
        expect(headers['content-type']).toBe('application/json; charset=utf-8');
        expect(JSON.parse(text)).toEqual({
          error: { path: '', message: expect.stringMatching(/^[^.]+\.$/) },
        });
      } else {
        expect(headers['content-type']).toMatch(/^text\/html; charset=utf-8/);
      }
    },
  );

  it('of a missing page is the site’s own page', async () => {
    const { body } = await send(temp.port, '/nothing');
    expect(body.toString()).toContain('Nothing here');
  });

  it('is JSON for whoever asks for JSON', async () => {
    const { headers } = await send(temp.port, '/throws', {
      headers: { accept: 'application/json' },
    });
    expect(headers['content-type']).toMatch(/^application\/json/);
  });
});
