import { hostname } from 'node:os';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isOwnHost, isSameOrigin } from '../../src/server/same-origin.ts';
import { makeTempServer, send, type TempServer } from './temp-server.ts';

describe('a request that may change something', () => {
  const host = '127.0.0.1:4400';
  const cases: readonly (readonly [string, Record<string, string>, boolean])[] = [
    ['a form of this site', { origin: `http://${host}`, 'sec-fetch-site': 'same-origin' }, true],
    ['an older browser, with Origin alone', { origin: `http://${host}` }, true],
    ['a browser that leaves Origin out', { 'sec-fetch-site': 'same-origin' }, true],
    ['a form of another site', { origin: 'https://evil.example' }, false],
    ['another port of this machine', { origin: 'http://127.0.0.1:9999' }, false],
    ['https in front of a plain site', { origin: `https://${host}` }, false],
    ['a site beside this one', { origin: `http://${host}`, 'sec-fetch-site': 'same-site' }, false],
    [
      'another site in a new browser',
      { origin: `http://${host}`, 'sec-fetch-site': 'cross-site' },
      false,
    ],
    ['a typed address', { 'sec-fetch-site': 'none' }, false],
    ['a sandboxed frame', { origin: 'null' }, false],
    ['nobody who says where from', {}, false],
  ];

  it.each(cases)('from %s: allowed is %s', (_name, headers, allowed) => {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', 'POST'.toLowerCase(), 'PURGE']) {
      expect(isSameOrigin(method, { host, ...headers }, null), method).toBe(allowed);
    }
    for (const method of ['GET', 'HEAD']) {
      expect(isSameOrigin(method, { host, ...headers }, null), method).toBe(true);
    }
  });

  it('is measured against SITE_URL behind a proxy', () => {
    const site = new URL('https://saw.example');
    const from = (origin: string) =>
      isSameOrigin('POST', { host: 'saw.example', origin, 'sec-fetch-site': 'same-origin' }, site);
    expect(from('https://saw.example')).toBe(true);
    expect(from('https://saw.example.evil.example')).toBe(false);
  });
});

describe('a host name', () => {
  it.each([
    ['127.0.0.1:4400', true],
    ['192.168.1.20:4400', true],
    ['[::1]:4400', true],
    ['localhost:4400', true],
    ['LOCALHOST', true],
    ['shop.localhost', true],
    [hostname(), true],
    ['evil.example:4400', false],
    ['localhost.evil.example', false],
    ['127.0.0.1.evil.example', false],
    ['', false],
    ['a b', false],
    [undefined, false],
  ])('%j is ours: %s', (host, own) => {
    expect(isOwnHost(host, null)).toBe(own);
  });

  it('set as SITE_URL is ours, with its port', () => {
    expect(isOwnHost('saw.example', new URL('https://saw.example'))).toBe(true);
    expect(isOwnHost('saw.example:8443', new URL('https://saw.example:8443'))).toBe(true);
    expect(isOwnHost('other.example', new URL('https://saw.example'))).toBe(false);
  });
});

describe('the running server', () => {
  let temp: TempServer;
  beforeAll(async () => {
    temp = await makeTempServer();
  });
  afterAll(() => temp.remove());

  it('refuses JSON from elsewhere before any page sees it', async () => {
    const reply = await send(temp.port, '/api/echo', {
      method: 'POST',
      headers: { origin: 'https://evil.example', 'content-type': 'application/json' },
      body: '{"x":1}',
    });
    expect(reply.status).toBe(403);
    expect(JSON.parse(reply.body.toString())).toEqual({
      error: {
        path: '',
        message: 'This request did not come from a page of this site, so nothing was changed.',
      },
    });
  });

  it('tells the pages that people came by https when a proxy stands before it', async () => {
    const behind = await makeTempServer({ siteUrl: new URL('https://saw.example') });
    const schemeAt = async (host: string) =>
      (await send(behind.port, '/scheme', { headers: { host } })).body.toString();
    expect(await schemeAt('127.0.0.1')).toBe('http');
    expect(await schemeAt('saw.example')).toBe('https');
    await behind.remove();
  });

  it('passes on what comes from its own pages', async () => {
    const reply = await send(temp.port, '/api/echo', {
      method: 'POST',
      headers: { origin: `http://127.0.0.1:${temp.port}` },
      body: '{"x":1}',
    });
    expect(JSON.parse(reply.body.toString())).toEqual({ body: '{"x":1}' });
  });

  it.each([
    ['a body said to be larger than 1 MB', { 'content-length': '1048577' }, ''],
    ['a body that turns out larger than 1 MB', { 'transfer-encoding': 'chunked' }, 'x'],
  ])('refuses %s', async (_name, headers, filler) => {
    const reply = await send(temp.port, '/api/echo', {
      method: 'POST',
      headers: { origin: `http://127.0.0.1:${temp.port}`, ...headers },
      body: Buffer.alloc(1_048_577, filler || 'y'),
    }).catch((error: Error) => error);
    // The server may hang up before all of it is sent.
    if (reply instanceof Error) expect(reply.message).toMatch(/ECONNRESET|EPIPE/);
    else expect(reply.status).toBe(413);
  });

  it('takes a body of exactly 1 MB', async () => {
    const reply = await send(temp.port, '/api/echo', {
      method: 'POST',
      headers: { origin: `http://127.0.0.1:${temp.port}` },
      body: Buffer.alloc(1_048_576, 'y'),
    });
    expect(reply.status).toBe(200);
  });
});
