import { readdirSync, readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { addressOf, subjectsOf } from './cells.ts';
import { EXPECTED } from './expected.ts';
import { builtRoutes } from './routes.ts';
import type { Answer, RunningSite } from './site.ts';
import type { World } from './world.ts';

type Stage = { readonly world: World; readonly site: RunningSite };

const JSON_TYPE = 'application/json';
const FORM_TYPE = 'application/x-www-form-urlencoded';

/** Every address that takes something, and how. */
function writingAddresses(world: World) {
  return builtRoutes()
    .filter(({ isPrerendered, pattern }) => !isPrerendered && EXPECTED[pattern] !== undefined)
    .flatMap((route) => {
      const [subject = 'none'] = subjectsOf(route.pattern);
      return (['POST', 'PUT', 'DELETE'] as const)
        .filter((method) => ![undefined, '404'].includes(EXPECTED[route.pattern]?.[method]))
        .map((method) => ({
          method,
          pattern: route.pattern,
          path: addressOf(route, subject, world),
        }));
    });
}

/** What every reply says, written out apart from the code. */
export function missingHeaders({ headers }: Pick<Answer, 'headers'>): string[] {
  const policy = String(headers['content-security-policy'] ?? '').split('; ');
  const wanted = [
    "default-src 'none'",
    "script-src 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ];
  const said: Readonly<Record<string, string>> = {
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'referrer-policy': 'same-origin',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-embedder-policy': 'require-corp',
    'cross-origin-resource-policy': 'same-origin',
  };
  return [
    ...wanted.filter((rule) => !policy.includes(rule)),
    ...Object.keys(said).filter((name) => headers[name] !== said[name]),
    ...(/unsafe|\*|https?:/.test(policy.join(' ')) ? ['a policy without holes'] : []),
    ...(String(headers['permissions-policy']).includes('camera=()') ? [] : ['permissions-policy']),
    ...['server', 'x-powered-by', 'access-control-allow-origin'].filter((name) => name in headers),
  ];
}

/** What a page may not hold inside it, each with what was found. */
export function inlineIn(html: string): string[] {
  const withoutText = html.replace(/<(textarea|title)\b[^>]*>.*?<\/\1>/gs, '');
  const found = [
    ...withoutText.matchAll(
      /<script\b(?![^>]*\bsrc=)(?![^>]*type="application\/(json|ld\+json)")[^>]*>/g,
    ),
    ...withoutText.matchAll(/<style\b[^>]*>/g),
    ...withoutText.matchAll(/<[a-z][^<>]*\s(style|on[a-z]+)\s*=\s*["'][^<>]*>/gi),
    ...withoutText.matchAll(
      /\s(href|src|action|formaction)\s*=\s*["']?\s*(javascript|data|vbscript):/gi,
    ),
  ];
  return found.map(([text]) => text.slice(0, 120));
}

/** Bytes as they are, for what no client would send; the head of what comes back. */
function sendRaw(port: number, text: string): Promise<string> {
  return new Promise((done) => {
    let received = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.on('data', (chunk) => {
      received += String(chunk);
    });
    socket.on('error', () => done(received));
    socket.on('close', () => done(received));
    setTimeout(() => socket.destroy(), 4_000).unref();
  });
}

function headersOf(raw: string): Record<string, string> {
  const lines = raw.split('\r\n\r\n', 1)[0]?.split('\r\n').slice(1) ?? [];
  return Object.fromEntries(
    lines.map((line) => {
      const at = line.indexOf(':');
      return [line.slice(0, at).toLowerCase(), line.slice(at + 1).trim()];
    }),
  );
}

/** The tests of the site's doors, on a site that the caller has running. */
export function testDoors(stage: () => Stage): void {
  it('a write that does not come from a page of this site is refused, whatever it carries', async () => {
    const { world, site } = stage();
    const before = await world.place.digest();
    const own = site.origin;
    const from: readonly Record<string, string>[] = [
      {},
      { origin: 'https://evil.example' },
      { origin: 'null' },
      { origin: `${own}.evil.example` },
      { origin: own, 'sec-fetch-site': 'cross-site' },
      { origin: own, 'sec-fetch-site': 'same-site' },
      { origin: own, 'sec-fetch-site': 'none' },
      { 'sec-fetch-site': 'cross-site' },
      { referer: `${own}/board` },
    ];
    const addresses = writingAddresses(world);
    expect(addresses.length).toBeGreaterThan(50);
    const wrong: string[] = [];
    for (const { method, path } of addresses) {
      for (const [i, headers] of from.entries()) {
        const type = ['text/plain', JSON_TYPE, FORM_TYPE, 'multipart/form-data; boundary=x'][i % 4];
        const { status } = await site.send(path, {
          method,
          headers: { ...headers, cookie: world.cookies.ruth, 'content-type': type ?? '' },
          body: i % 2 === 0 ? '{"do":"remove"}' : 'do=remove&a={"x":1}',
        });
        if (status !== 403)
          wrong.push(`${method} ${path} from ${JSON.stringify(headers)}: ${status}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(await world.place.digest()).toEqual(before);
  }, 60_000);

  it('a method in a header or a field counts for nothing', async () => {
    const { world, site } = stage();
    const before = await world.place.digest();
    // opening a shared link is entered on purpose
    const addresses = writingAddresses(world).filter(({ path }) => !path.startsWith('/shared/'));
    for (const { method, path } of addresses) {
      await site.send(`${path}${path.includes('?') ? '&' : '?'}_method=${method}`, {
        headers: {
          cookie: world.cookies.ruth,
          'x-http-method-override': method,
          'x-http-method': method,
          'x-method-override': method,
        },
      });
    }
    expect(await world.place.digest()).toEqual(before);
  }, 60_000);

  it('an interface takes JSON by its name alone, and JSON that every reader reads alike', async () => {
    const { world, site } = stage();
    const post = (body: string | Uint8Array, headers: Record<string, string> = {}) =>
      site.send('/api/attempts', {
        method: 'POST',
        headers: {
          origin: site.origin,
          cookie: world.cookies.mira,
          'content-type': JSON_TYPE,
          ...headers,
        },
        body,
      });
    const right = '{"task":"walk-round"}';
    expect((await post(right)).status).toBe(201);
    for (const type of [
      'text/plain',
      FORM_TYPE,
      'application/jsonx',
      'multipart/form-data; boundary=x',
    ]) {
      expect((await post(right, { 'content-type': type })).status, type).toBe(415);
    }
    const deep = `${'['.repeat(5_000)}${']'.repeat(5_000)}`;
    for (const body of [
      '{"task":"walk-round","task":"walk-round"}',
      '{"task":"walk-round","\\u0074ask":"walk-round"}',
      '{"__proto__":{"task":"walk-round"}}',
      '{"task":"walk-round","__proto__":null}',
      `{"task":"walk-round","more":${deep}}`,
      '\ufeff{"task":"walk-round"}',
      new Uint8Array([...Buffer.from('{"task":"walk-round'), 0xff, ...Buffer.from('"}')]),
      '',
      'null',
      '{"task":["walk-round"]}',
    ]) {
      expect((await post(body)).status, String(body).slice(0, 60)).toBe(400);
    }
    expect(
      (await post(`{"task":"${'x'.repeat(1_100_000)}"}`).catch(() => ({ status: 413 }))).status,
    ).toBe(413);
    for (const coding of ['gzip', 'br', 'deflate', 'gzip, gzip', 'x']) {
      const packed = await post(gzipSync(right), { 'content-encoding': coding });
      expect(packed.status, coding).toBe(415);
    }
  });

  it('every kind of reply carries every header, and no banner', async () => {
    const { world, site } = stage();
    const write = { origin: site.origin, 'content-type': JSON_TYPE };
    const script = readdirSync('dist/client/_astro').find((name) => name.endsWith('.js'));
    const kinds: readonly (readonly [number, string, Parameters<RunningSite['send']>[1]?])[] = [
      [200, '/'],
      [200, '/lessons'],
      [200, `/_astro/${script}`],
      [200, '/api/health'],
      [200, '/verifier.html'],
      [303, '/board'],
      [400, '/api/attempts', { method: 'POST', headers: write, body: '{}' }],
      [401, '/api/kit'],
      [403, '/board', { headers: { cookie: world.cookies.mira } }],
      [403, '/sign-in', { method: 'POST', headers: { origin: 'https://evil.example' } }],
      [404, '/nothing-here'],
      [404, '/api/nothing-here'],
      [404, '/_image?href=/etc/passwd'],
      [405, '/lessons', { method: 'POST', headers: write }],
      [405, '/board', { method: 'DELETE', headers: write }],
      [405, '/', { method: 'TRACE' }],
      [415, '/api/attempts', { method: 'POST', headers: { origin: site.origin }, body: '{}' }],
      [421, '/', { headers: { host: 'evil.example' } }],
    ];
    for (const [status, path, ask] of kinds) {
      const answer = await site.send(path, ask);
      const found = status === 303 && answer.status === 302 ? 303 : answer.status;
      expect(found, path).toBe(status);
      expect(missingHeaders(answer), `${status} ${path}`).toEqual([]);
      if (answer.body !== '') {
        expect(answer.headers['content-type'], path).toMatch(/; ?charset=utf-8$/);
      }
    }
    const first = await site.send('/lessons');
    const again = await site.send('/lessons', {
      headers: { 'if-none-match': String(first.headers.etag) },
    });
    expect(again.status).toBe(304);
    expect(missingHeaders(again)).toEqual([]);
    const host = `host: 127.0.0.1:${site.port}`;
    for (const [line, raw] of [
      ['HTTP/1.1 400', 'not http at all\r\n\r\n'],
      ['HTTP/1.1 431', `GET / HTTP/1.1\r\n${host}\r\nx: ${'y'.repeat(40_000)}\r\n\r\n`],
      [
        'HTTP/1.1 400',
        `POST / HTTP/1.1\r\n${host}\r\ncontent-length: 3\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n`,
      ],
      ['HTTP/1.1 400', `GET / HTTP/1.1\r\n${host}\r\nx: a\0b\r\n\r\n`],
    ] as const) {
      const answer = await sendRaw(site.port, raw);
      expect(answer.slice(0, line.length), raw.slice(0, 40)).toBe(line);
      expect(missingHeaders({ headers: headersOf(answer) }), line).toEqual([]);
    }
  });

  it('no page, built ahead or for a person, holds a script, a style or a handler inside it', async () => {
    const { world, site } = stage();
    const found: string[] = [];
    let pages = 0;
    for (const file of readdirSync('dist/client', { recursive: true, encoding: 'utf8' })) {
      if (!file.endsWith('.html')) continue;
      pages += 1;
      found.push(
        ...inlineIn(readFileSync(`dist/client/${file}`, 'utf8')).map((one) => `${file}: ${one}`),
      );
    }
    for (const route of builtRoutes().filter(
      ({ isPrerendered, type }) => !isPrerendered && type === 'page',
    )) {
      for (const viewer of ['mira', 'ruth', 'anna'] as const) {
        const [subject = 'none'] = subjectsOf(route.pattern);
        const { body, headers } = await site.send(addressOf(route, subject, world), {
          headers: { cookie: world.cookies[viewer] },
        });
        if (!String(headers['content-type']).startsWith('text/html')) continue;
        pages += 1;
        found.push(...inlineIn(body).map((one) => `${route.pattern} for ${viewer}: ${one}`));
      }
    }
    expect(pages).toBeGreaterThan(250);
    expect(found).toEqual([]);
  }, 60_000);

  it('an address with a NUL in it is nothing’s, on every route that takes an id and for everybody', async () => {
    const { world, site } = stage();
    const taking = builtRoutes().filter(
      ({ isPrerendered, pattern }) => !isPrerendered && /\[/.test(pattern) && !/^\/_/.test(pattern),
    );
    expect(taking.length).toBeGreaterThan(40);
    const wrong: string[] = [];
    for (const { pattern } of taking) {
      // a second coding is taken off as well
      for (const spoilt of ['%00', 'a%00b', '%2500']) {
        const path = pattern.replace(/\[[^\]]+\]/g, spoilt);
        for (const viewer of ['nobody', 'mira', 'anna'] as const) {
          const headers = { cookie: world.cookies[viewer] };
          const { status } = await site.send(path, { headers });
          if (status !== 404) wrong.push(`${path} for ${viewer}: ${status}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  it('no address reaches a file outside the built site', async () => {
    const { site } = stage();
    for (const path of [
      '/../package.json',
      '/..%2f..%2fpackage.json',
      '/%2e%2e/%2e%2e/package.json',
      '/lessons/../../../package.json',
      '/_astro/..%5c..%5cpackage.json',
      '/.git/config',
      '/.env',
      '/data/store.sqlite',
      '/site-key.json',
      '/src/cli/start.ts',
      '//etc/passwd',
      '/lessons%00.html',
    ]) {
      const { status, body } = await site.send(path);
      expect([400, 404], path).toContain(status);
      expect(body, path).not.toMatch(/signed-to-saw"|root:|kysely/);
    }
    const many = Array.from({ length: 1_500 }, (_, i) => `set=${i}`).join('&');
    expect((await site.send(`/limits?${many}`)).status).toBe(200);
  });
}
