import { describe, expect, it } from 'vitest';
import {
  browserAddress,
  ownPath,
  readForm,
  readJson,
  replyRefusal,
  seeOther,
} from '../../src/accounts/index.ts';

describe('a path given by a stranger', () => {
  it.each([
    ['/board', '/board'],
    ['/practical/new?person=a&bench=b', '/practical/new?person=a&bench=b'],
    ['/a/../b', '/b'],
    ['//evil.example', null],
    ['/\\evil.example', null],
    ['/\t/evil.example', null],
    ['https://evil.example/', null],
    ['javascript:alert(1)', null],
    ['board', null],
    ['', null],
    [null, null],
    [undefined, null],
  ])('%j leads to %j', (given, expected) => {
    expect(ownPath(given)).toBe(expected);
  });
});

describe('the address of a browser', () => {
  const asked = (forwarded?: string) =>
    new Request(
      'http://x.example/',
      forwarded ? { headers: { 'x-forwarded-for': forwarded } } : {},
    );
  const SITE = 'https://saw.example';

  it.each([
    ['198.51.100.9', '127.0.0.1', SITE, '198.51.100.9'],
    ['203.0.113.5, 198.51.100.9', '::1', SITE, '198.51.100.9'],
    ['198.51.100.9', '::ffff:127.0.0.1', SITE, '198.51.100.9'],
    ['198.51.100.9', '192.0.2.1', SITE, '192.0.2.1'],
    ['198.51.100.9', '127.0.0.1', undefined, '127.0.0.1'],
    [undefined, '127.0.0.1', SITE, '127.0.0.1'],
  ])('forwarded %s, connected from %s, SITE_URL %s: %s', (forwarded, from, siteUrl, expected) => {
    expect(browserAddress(asked(forwarded), from, siteUrl ?? '')).toBe(expected);
  });
});

describe('a posted form', () => {
  it('gives its text fields, and nothing when it is no form', async () => {
    const post = (body: BodyInit, headers?: HeadersInit) =>
      new Request('http://x.example/', { method: 'POST', body, ...(headers && { headers }) });
    expect(await readForm(post(new URLSearchParams({ a: '1', b: '' })))).toEqual({ a: '1', b: '' });
    expect(await readForm(post('{"a":1}', { 'content-type': 'application/json' }))).toEqual({});
    expect(await readForm(post('a=1', { 'content-type': 'text/plain' }))).toEqual({});
    expect(await readJson(post('{"a":1}'))).toEqual({ a: 1 });
    expect(await readJson(post('{"a":'))).toBeUndefined();
  });
});

describe('a reply', () => {
  it('carries a refusal in the one shape', async () => {
    const reply = replyRefusal({ status: 403, path: 'role', message: 'No.' });
    expect(reply.status).toBe(403);
    expect(await reply.json()).toEqual({ error: { path: 'role', message: 'No.' } });
  });

  it('sends on with each cookie in a header of its own', () => {
    const reply = seeOther('/board', ['a=1; Path=/', 'b=2']);
    expect(reply.status).toBe(303);
    expect(reply.headers.get('location')).toBe('/board');
    expect(reply.headers.getSetCookie()).toEqual(['a=1; Path=/', 'b=2']);
  });
});
